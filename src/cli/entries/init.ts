export { init as run } from '../commands/init.ts';
