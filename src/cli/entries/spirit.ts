export { spirit as run } from '../commands/spirit.ts';
export { emit } from '../emit.ts';
