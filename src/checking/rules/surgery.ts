import { citeIn } from '../../folder/cite-in.ts';
import { daysBetween, writeDate } from '../../measure/calendar.ts';
import { given } from '../../measure/figure.ts';
import { inUnit } from '../../measure/quantity.ts';
import { day } from '../../measure/units.ts';
import { type Case, herbsOf, type Rule } from '../case.ts';
import { type Acting, acting } from '../effects.ts';
import { type Finding, finding } from '../finding.ts';
import type { Person } from '../person.ts';

/** The condition by which an operation is told where its day is not. */
const PLANNED = 'surgery_planned';

export const surgery: Rule = {
  name: 'surgery',
  sentence:
    'A herb that makes bleeding likelier or adds to an anaesthetic is a decision where it is taken up to shortly before an operation.',
  fires: 'valerian for someone who is operated on in six days',
  quiet: 'the same with no operation planned',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null) return [];
    return acting(c).flatMap((a) =>
      a.given && a.effect.surgery ? judge(a, a.effect.surgery, person, c) : [],
    );
  },
};

type Before = NonNullable<Acting['effect']['surgery']>;

function judge(a: Acting, before: Before, person: Person, c: Case): Finding[] {
  const when = plannedFor(person, before, lastDay(a.herb, c), c);
  if (when === false) return [];
  const within = given(
    before.within,
    'to be left between the last dose and the operation',
    citeIn(c.effects, before),
  );
  const sure = when !== 'unknown';
  return [
    finding({
      rule: 'surgery',
      herb: a.herb,
      subject: `${sure ? '' : 'possible '}${a.effect.id}`,
      ...c.levels.judged(sure ? 'operation-planned' : 'too-coarse'),
      say: sure
        ? [
            `${a.herb} ${a.effect.does}, and an operation is planned${when}: ${before.why}; it is commonly stopped`,
            within,
            'before',
          ]
        : [`${a.herb} ${a.effect.does}: the operation that was named is past; is another planned?`],
      figures: [within],
      source: citeIn(c.effects, before),
      facts: { effect: a.effect.id, within: before.within, when },
    }),
  ];
}

/** The days from now on which it is directed; null where the directions set no end. */
function lastDay(herb: string, c: Case): number | null {
  const courses = herbsOf(c)
    .filter((h) => h.herb === herb)
    .map((h) => h.dose?.course ?? null);
  return courses.includes(null)
    ? null
    : Math.max(...courses.map((f) => (f ? inUnit(f.value, day).value.toNumber() : 0)));
}

/** In words for the sentence; the empty text where only that one is planned is known. */
function plannedFor(
  person: Person,
  { within }: Before,
  last: number | null,
  c: Case,
): string | false | 'unknown' {
  const stated = person.conditions.given ? person.conditions.value.map((s) => s.item) : [];
  const told = c.matching.condition(stated, PLANNED);
  if (!person.surgery.given || person.surgery.value === null) return told === true ? '' : false;
  const away = daysBetween(person.on, person.surgery.value);
  if (away < 0) return told === true ? '' : 'unknown';
  const left = last === null ? 0 : away - last;
  return left < inUnit(within, day).value.toNumber() ? ` for ${writeDate(person.surgery.value)}` : false;
}
