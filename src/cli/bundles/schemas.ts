/** The bundle that holds the YAML parser and the schemas, and the commands that are about them. */
export * from '../../folder/validate-text.ts';

export const commands = {
  schema: () => import('../entries/schema.ts'),
  init: () => import('../entries/init.ts'),
};
