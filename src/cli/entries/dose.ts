export { dose as run } from '../commands/dose.ts';
export { emit } from '../emit.ts';
