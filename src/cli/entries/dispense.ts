export { dispense as run } from '../commands/dispense.ts';
export { emit } from '../emit.ts';
