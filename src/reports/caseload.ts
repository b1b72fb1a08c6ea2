import { LEVELS, type Level, type Verdict } from '../checking/level.ts';
import { exact } from '../measure/exact.ts';
import { given } from '../measure/figure.ts';
import { CAUTION } from './caution.ts';
import { type Block, type Line, type Sheet, words } from './sheet.ts';

/** What is counted over a caseload. */
export interface Counted {
  readonly rows: number;
  readonly badRows: number;
  readonly checks: number;
  readonly verdicts: ReadonlyMap<Verdict, number>;
  /** Findings of each level by herb. */
  readonly herbs: ReadonlyMap<string, ReadonlyMap<Level, number>>;
}

const count = (n: number, says: string) => given(exact(n), says);

/** How many came to what, gravest first, and which herbs brought it up. */
export function caseloadSheet({ rows, badRows, checks, verdicts, herbs }: Counted): Sheet {
  const order: readonly Verdict[] = [...LEVELS, 'clear'];
  return {
    title: 'Caseload',
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'rows', value: count(rows, 'rows') },
          ...(badRows > 0
            ? [{ label: 'wrong, and not judged', value: count(badRows, 'rows that were wrong') }]
            : []),
          { label: 'checks', value: count(checks, 'checks') },
          ...order.flatMap((v) => {
            const n = verdicts.get(v) ?? 0;
            return n > 0 ? [{ label: `  ${v}`, value: count(n, `checks that came to ${v}`) }] : [];
          }),
        ],
      },
      ...herbTable(herbs),
      { kind: 'caution', text: CAUTION },
    ],
  };
}

function herbTable(herbs: Counted['herbs']): Block[] {
  if (herbs.size === 0) return [];
  const grave = (of: ReadonlyMap<Level, number>): number =>
    LEVELS.reduce((sum, l, i) => sum + (of.get(l) ?? 0) * 1e6 ** (LEVELS.length - i), 0);
  const sorted = [...herbs].sort(([a, x], [b, y]) => grave(y) - grave(x) || (a < b ? -1 : 1));
  const cell = (n: number, says: string): Line => (n === 0 ? words('') : count(n, says));
  return [
    {
      kind: 'table',
      columns: [{ head: 'findings' }, ...LEVELS.map((l) => ({ head: l }))],
      rows: sorted.map(([herb, of]) => [
        words(herb),
        ...LEVELS.map((l) => cell(of.get(l) ?? 0, `${l}, ${herb}`)),
      ]),
    },
  ];
}
