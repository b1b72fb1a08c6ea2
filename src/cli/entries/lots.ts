export { lots as run } from '../commands/lots.ts';
export { emit } from '../emit.ts';
