export { trace as run } from '../commands/trace.ts';
export { emit } from '../emit.ts';
