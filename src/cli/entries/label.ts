export { label as run } from '../commands/label.ts';
export { emit } from '../emit.ts';
