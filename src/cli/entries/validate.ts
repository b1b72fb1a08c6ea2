export { validate as run } from '../commands/validate.ts';
export { emit } from '../emit.ts';
