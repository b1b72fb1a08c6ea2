export { show as run } from '../commands/show.ts';
export { emit } from '../emit.ts';
