import type { Whose } from '../../src/dosing/applies.ts';
import { type Compared, compare } from '../../src/dosing/compare.ts';
import { type HerbDose, herbDoses } from '../../src/dosing/equivalents.ts';
import { writeProblem } from '../../src/folder/problem.ts';
import { readText } from '../../src/folder/read.ts';
import type { Monograph } from '../../src/folder/schema/monograph.ts';
import { parseDate, parseDateInterval } from '../../src/measure/calendar.ts';
import { writeRange } from '../../src/measure/write.ts';
import { made, shown, value } from '../compounding/formula.ts';

/** An invented plant with the doses (and, behind them, the constituents) that a test is about. */
export async function monograph(doses: string, more = ''): Promise<Monograph> {
  const text = `id: trial-herb
names: {latin: Plantago inventa, common: trial herb}
family: Plantaginaceae
part: herb
checked: null
sources:
  a: {body: First body, title: First text, reading: original}
  b: {body: Second body, title: Second text, reading: restated}
doses:
${doses.trim().replace(/^ *- /gm, '  - ')}
interactions: not-read
${more.trim()}
`;
  const read = await readText('monograph', text, 'monographs/trial-herb.yaml', null, 'none');
  if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
  return read.value.value;
}

/** The dose of the one herb of a formula: so many g at once, so many times a day. */
export async function taken(
  grams: string,
  times = '1',
  more: { kind?: string; use?: string; week?: string; form?: string } = {},
): Promise<HerbDose> {
  const { kind = 'infusion', use, week, form } = more;
  const how: Record<string, string> = {
    infusion: 'infuse: 10 min, strained: 100 mL',
    decoction: 'boil: 10 min, strained: 100 mL',
    'cold-maceration': 'macerate: 8 h, strained: 100 mL',
  };
  const batch = await made(`
${use ? `use: ${use}` : ''}
${kind === 'powder' ? `makes: ${grams}` : ''}
ingredients: [{herb: trial-herb, parts: 1${form ? `, form: ${form}` : ''}}]
preparation: {kind: ${kind}${kind === 'powder' ? '' : `, herb: ${grams}, water: 200 mL, ${how[kind]}`}}
directions: {take: ${kind === 'powder' ? grams : 'all of the pot'}, times: ${times}${week ? `, days_a_week: ${week}` : ''}}`);
  const [dose] = herbDoses(batch);
  if (!dose) throw new Error('no dose');
  return dose;
}

/** Someone born on a day, or in a month, and the day on which they are seen. */
export function whose(born: string, on = '2026-05-02'): Whose {
  return { birth: value(parseDateInterval(born)), on: value(parseDate(on)) };
}

export const ADULT = whose('1980-01-01');

export async function outcomes(m: Monograph, dose: HerbDose, who: Whose | null = ADULT): Promise<string[]> {
  return compare(m, dose, who).map(inWords);
}

/** `above: single 3 g beside 1 to 2 g`, one line for the figures that decide, or why there are none. */
export function inWords(c: Compared): string {
  if (c.outcome === 'not comparable') return `not comparable: ${c.because ?? ''}`;
  const deciding = c.against.filter((a) => a.outcome === c.outcome);
  return `${c.outcome}: ${deciding.map((a) => `${a.measure} ${shown(a.dose)} beside ${writeRange(a.published.value)}`).join('; ')}`;
}
