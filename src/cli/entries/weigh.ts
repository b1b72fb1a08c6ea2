export { weigh as run } from '../commands/weigh.ts';
export { emit } from '../emit.ts';
