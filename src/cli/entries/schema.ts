export { schema as run } from '../commands/schema.ts';
