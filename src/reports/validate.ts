import type { Monograph } from '../folder/schema/monograph.ts';
import { writeDate } from '../measure/calendar.ts';
import { exact } from '../measure/exact.ts';
import { given } from '../measure/figure.ts';
import { type Sheet, words } from './sheet.ts';

/** That all is in order, and how much was read. */
export function validateSheet(counts: ReadonlyMap<string, number>): Sheet {
  return {
    title: 'Every file is in order',
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'read' }, { head: 'files' }],
        rows: [...counts].map(([kind, n]) => [words(kind), given(exact(n), `files read: ${kind}`)]),
      },
    ],
  };
}

export function validateJson(counts: ReadonlyMap<string, number>): Record<string, unknown> {
  return { valid: true, files: Object.fromEntries([...counts].map(([kind, n]) => [kind, String(n)])) };
}

/** Which monographs the practitioner has signed off, and which not yet. */
export function checkedSheet(herbs: readonly Monograph[]): Sheet {
  const done = herbs.filter((m) => m.checked !== null);
  const open = herbs.filter((m) => m.checked === null);
  return {
    title: 'Signed off by the practitioner',
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'signed off', value: given(exact(done.length), 'monographs signed off') },
          { label: 'not yet', value: given(exact(open.length), 'monographs not signed off') },
        ],
      },
      {
        kind: 'list',
        items: done.map((m) =>
          words(`${m.id}: ${m.checked ? `${m.checked.by}, ${writeDate(m.checked.on)}` : ''}`),
        ),
      },
      ...(open.length > 0
        ? [
            {
              kind: 'section',
              title: 'Not yet',
              blocks: [{ kind: 'list', items: open.map((m) => words(m.id)) }],
            } as const,
          ]
        : []),
      {
        kind: 'lines',
        lines: [
          words(
            'To sign one off, compare it with the texts you trust and write checked: {by: XX, on: 2026-03-01}.',
          ),
        ],
      },
    ],
  };
}

export function checkedJson(herbs: readonly Monograph[]): Record<string, unknown> {
  return {
    signed_off: herbs.flatMap((m) =>
      m.checked ? [{ herb: m.id, by: m.checked.by, on: writeDate(m.checked.on) }] : [],
    ),
    not_yet: herbs.filter((m) => m.checked === null).map((m) => m.id),
  };
}
