export { check as run } from '../commands/check.ts';
export { emit } from '../emit.ts';
