import type { KeptAs } from '../folder/schema/record.ts';
import { writeDate } from '../measure/calendar.ts';
import { CAUTION } from './caution.ts';
import { type Sheet, words } from './sheet.ts';

const REPORT =
  'Report it to the reporting scheme for suspected adverse reactions of your country, which its medicines authority runs; that it may have another cause is no reason to wait.';
const SERIOUS =
  'A serious reaction (death, danger to life, stay in hospital, lasting harm, harm to an unborn child) is reported at once, and the person is seen by a doctor now.';

/** A suspected reaction as it was recorded, and what is done with it. */
export function reactionSheet(r: KeptAs<'reaction'>, to: KeptAs<'dispensing'>): Sheet {
  return {
    title: `Record ${r.record}: a suspected reaction to ${to.title}`,
    subtitle: `recorded ${writeDate(r.on)} by ${r.by}`,
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'person', value: words(to.patient) },
          { label: 'handed over', value: words(`record ${to.record}, ${writeDate(to.on)}`) },
          { label: 'what', value: words(r.says) },
          { label: 'serious', value: words(r.serious === undefined ? 'not said' : r.serious ? 'yes' : 'no') },
        ],
      },
      { kind: 'list', items: [...(r.serious === false ? [] : [words(SERIOUS)]), words(REPORT)] },
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: scruple trace ${to.record}, for the lots that went into it`)] },
    ],
  };
}

/** Keys for scripts: record, of, patient, on, says, serious. */
export function reactionJson(r: KeptAs<'reaction'>, to: KeptAs<'dispensing'>): Record<string, unknown> {
  return {
    record: r.record,
    of: r.of,
    patient: to.patient,
    on: writeDate(r.on),
    by: r.by,
    says: r.says,
    serious: r.serious ?? null,
  };
}
