export { list as run } from '../commands/list.ts';
export { emit } from '../emit.ts';
