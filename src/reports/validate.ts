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
