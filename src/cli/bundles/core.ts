/**
 * The commands that share one bundle, because they share most of what they do. Each is made ready when it is called,
 * and not before.
 */
export const commands = {
  weigh: () => import('../entries/weigh.ts'),
  spirit: () => import('../entries/spirit.ts'),
  dose: () => import('../entries/dose.ts'),
  check: () => import('../entries/check.ts'),
  gather: () => import('../entries/gather.ts'),
  dry: () => import('../entries/dry.ts'),
  list: () => import('../entries/list.ts'),
  show: () => import('../entries/show.ts'),
  dispense: () => import('../entries/dispense.ts'),
  label: () => import('../entries/label.ts'),
  trace: () => import('../entries/trace.ts'),
  caseload: () => import('../entries/caseload.ts'),
  lots: () => import('../entries/lots.ts'),
  validate: () => import('../entries/validate.ts'),
};

export { emit } from '../emit.ts';
