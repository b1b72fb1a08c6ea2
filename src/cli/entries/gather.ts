export { gather as run } from '../commands/gather.ts';
export { emit } from '../emit.ts';
