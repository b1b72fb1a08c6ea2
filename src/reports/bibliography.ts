import type { Monograph } from '../folder/schema/monograph.ts';
import { exact } from '../measure/exact.ts';
import { given, READINGS, type Reading } from '../measure/figure.ts';
import { cite, READING_WORDS } from './cite.ts';
import { type Sheet, words } from './sheet.ts';

interface Entry {
  readonly text: string;
  readonly herbs: string[];
}

/** Every source of these monographs once, in the order of the body that issued it, with the herbs that rest on it. */
function entriesOf(herbs: readonly Monograph[]): Entry[] {
  const all = new Map<string, Entry>();
  for (const m of herbs)
    for (const [key, s] of Object.entries(m.sources)) {
      const text = cite({ key, body: s.body, title: s.title, ref: s.ref, year: s.year, reading: s.reading });
      const entry = all.get(text) ?? { text, herbs: [] };
      entry.herbs.push(m.id);
      all.set(text, entry);
    }
  return [...all.values()].sort((a, b) => (a.text < b.text ? -1 : 1));
}

export function bibliographySheet(herbs: readonly Monograph[]): Sheet {
  const entries = entriesOf(herbs);
  return {
    title: 'Sources',
    subtitle: herbs.length === 1 ? (herbs[0]?.id ?? '') : `of ${herbs.length} monographs`,
    blocks: [
      {
        kind: 'list',
        items: entries.map((e) =>
          herbs.length === 1 ? words(e.text) : words(`${e.text}: ${e.herbs.join(', ')}`),
        ),
      },
    ],
  };
}

export function bibliographyJson(herbs: readonly Monograph[]): Record<string, unknown> {
  return { sources: entriesOf(herbs).map((e) => ({ source: e.text, herbs: e.herbs })) };
}

const DOSE_FIGURES = [
  'single',
  'daily',
  'weekly',
  'concentration',
  'times',
  'times_a_week',
  'refer_after',
  'stop_after',
] as const;

/** How many published figures (doses, contents, age floors, moistures, keeping) were read in which way. */
export function readingsOf(herbs: readonly Monograph[]): ReadonlyMap<Reading, number> {
  const counts = new Map<Reading, number>(READINGS.map((r) => [r, 0]));
  for (const m of herbs) {
    const count = (
      fact: { readonly source: string; readonly reading?: Reading | undefined },
      figures: number,
    ): void => {
      const reading = fact.reading ?? m.sources[fact.source]?.reading;
      if (reading !== undefined) counts.set(reading, (counts.get(reading) ?? 0) + figures);
    };
    for (const e of m.doses === 'none-read' ? [] : m.doses)
      count(e, DOSE_FIGURES.filter((k) => e[k] !== undefined).length);
    for (const c of m.constituents ?? []) count(c, c.content ? 1 : 0);
    for (const a of m.ages ?? []) count(a, 1);
    if (m.dry) count(m.dry, [m.dry.fresh_moisture, m.dry.dry_moisture, m.dry.days].filter((x) => x).length);
    if (m.keep?.for) count(m.keep, 1);
    if (m.holds_water) count(m.holds_water, 1);
  }
  return counts;
}

export function readingsSheet(herbs: readonly Monograph[]): Sheet {
  const counts = [...readingsOf(herbs)];
  return {
    title: 'How the figures were read',
    subtitle: `${herbs.length} monographs`,
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'reading' }, { head: 'figures' }],
        rows: counts.map(([reading, n]) => [
          words(READING_WORDS[reading]),
          given(exact(n), `figures read: ${reading}`),
        ]),
        total: [words('in all'), given(exact(counts.reduce((t, [, n]) => t + n, 0)), 'figures in all')],
      },
      {
        kind: 'lines',
        lines: [
          words(
            'Doses, times, durations, contents, age floors, moistures and keeping; cautions are not counted.',
          ),
        ],
      },
      { kind: 'lines', lines: [words('Next: scruple show --sources')] },
    ],
  };
}

export function readingsJson(herbs: readonly Monograph[]): Record<string, unknown> {
  return { readings: Object.fromEntries([...readingsOf(herbs)].map(([r, n]) => [r, String(n)])) };
}
