export { dry as run } from '../commands/dry.ts';
export { emit } from '../emit.ts';
