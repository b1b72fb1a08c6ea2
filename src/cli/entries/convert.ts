export { convert as run } from '../commands/convert.ts';
export { emit } from '../emit.ts';
