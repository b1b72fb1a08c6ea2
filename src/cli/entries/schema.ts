export { schema as run } from '../commands/schema.ts';
export { emit } from '../emit.ts';
