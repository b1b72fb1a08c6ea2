import type { emit as emitAnswers } from '../emit.ts';

export { caseload as run } from '../commands/caseload.ts';

/** The rows have been written as they were judged; only what stopped everything is left to be told. */
export const emit: typeof emitAnswers = async (command, outcome, options) => {
  if (outcome.ok) return outcome.exit;
  const { emit: tell } = await import('../emit.ts');
  return tell(command, outcome, options);
};
