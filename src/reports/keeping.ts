import type { Keeping, LimitHeld } from '../compounding/keeping.ts';
import type { Figure } from '../measure/figure.ts';
import { type Line, sentence, sentenceFrom } from './sheet.ts';

/** Whether it keeps, by what, and the published limits that were looked at; how long, where it does not. */
export function keepingLines({ keeps, limits, time }: Keeping): Line[] {
  const until = time
    ? [sentence`${keeps === null ? '' : 'keep it '}at the most ${time.for}, ${time.how}`]
    : [];
  if (keeps === null) return until;
  const by = thingThatKeeps(limits);
  if (keeps === 'by itself') return [meets('by itself: ', by, true)];
  if (keeps === 'by some sources')
    return [meets('sources disagree: ', by, true), meets('and not: ', by, false), ...until];
  return [meets('not by itself: ', limits, false), ...until];
}

/** Of what meets a limit, the thing that meets the most of its own. */
function thingThatKeeps(limits: readonly LimitHeld[]): LimitHeld[] {
  const things = [...new Set(limits.map((l) => l.of))].map((of) => limits.filter((l) => l.of === of));
  const share = (of: readonly LimitHeld[]): number => of.filter((l) => l.met).length / of.length;
  return things.sort((a, b) => share(b) - share(a))[0] ?? [];
}

/** `51.9 % v/v ethanol is at least 15 % v/v, 18 % v/v (a source); 44.2 % m/m is at least 15 % m/m (another)`. */
function meets(lead: string, limits: readonly LimitHeld[], met: boolean): Line {
  const parts: (string | Figure)[] = [lead];
  const told = limits.filter((l) => l.met === met);
  told.forEach((l, i) => {
    const before = told[i - 1];
    const next = told[i + 1];
    const sameAsBefore =
      before?.has === l.has && before.which === l.which && before.source.key === l.source.key;
    if (sameAsBefore) parts.push(', ', l.limit);
    else parts.push(i > 0 ? '; ' : '', l.has, ` ${l.of} is ${met ? '' : 'not '}${l.which} `, l.limit);
    const sameAsNext = next?.has === l.has && next.which === l.which && next.source.key === l.source.key;
    if (!sameAsNext) parts.push(` (${l.source.body})`);
  });
  return sentenceFrom(parts.filter((x) => x !== ''));
}

/** For scripts: the verdict, the limits, how long. */
export function keepingJson({ keeps, limits, time }: Keeping): Record<string, unknown> {
  return {
    keeps,
    limits: limits.map((l) => ({
      of: l.of,
      has: l.has,
      limit: l.limit,
      which: l.which,
      met: l.met,
      source: l.source.key,
      reading: l.source.reading,
    })),
    for: time?.for ?? null,
  };
}
