export { init as run } from '../commands/init.ts';
export { emit } from '../emit.ts';
