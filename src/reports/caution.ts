import type { Sheet } from './sheet.ts';

/** What every dose, sheet, label and check carries, once. */
export const CAUTION =
  'For trained practitioners: local law and licensed practice decide what may be given. Urgent signs go to a doctor at once.';

/** The sheet with the caution at its foot; a sheet that has it already stays as it is. */
export function withCaution(sheet: Sheet): Sheet {
  if (sheet.blocks.some((block) => block.kind === 'caution' && block.text === CAUTION)) return sheet;
  return { ...sheet, blocks: [...sheet.blocks, { kind: 'caution', text: CAUTION }] };
}
