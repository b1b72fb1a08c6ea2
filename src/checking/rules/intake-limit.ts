import { markerIn } from '../../dosing/marker.ts';
import { citeIn } from '../../folder/cite-in.ts';
import type { IntakeLimits } from '../../folder/schema/reference.ts';
import { withinBand } from '../../measure/age.ts';
import { type Figure, given, worked } from '../../measure/figure.ts';
import { compareQuantities, inUnit, plus, type Quantity, quantity } from '../../measure/quantity.ts';
import { kilogram, milligram, per } from '../../measure/units.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { type Portion, regimen } from '../regimen.ts';

type Limit = IntakeLimits['limits'][number];

export const intakeLimit: Rule = {
  name: 'intake-limit',
  sentence:
    'A constituent with a daily limit is added up over everything taken by mouth; where its content is not known closely enough, that is said.',
  fires: 'liquorice tea with more than 100 mg of glycyrrhizin a day, though inside its own dose range',
  quiet: 'liquorice in a gargle',
  find: (c: Case): Finding[] => {
    const portions = regimen(c);
    return c.intake.limits.flatMap((limit) => {
      if (!isForThem(limit, c)) return [];
      const holding = portions.filter((p) => holds(p, limit));
      return holding.some((p) => p.given) ? judge(limit, holding, c) : [];
    });
  },
};

/** Without a person an adult is meant. */
function isForThem({ ages }: Limit, c: Case): boolean {
  if (ages === undefined) return true;
  const birth = c.person?.birth;
  return birth ? withinBand(birth, ages, c.on) !== false : ages.under === null;
}

function holds({ herb, monograph }: Portion, { herbs, counts }: Limit): boolean {
  return (
    herbs.includes(herb) ||
    (monograph?.constituents ?? []).some((x) => x.in === undefined && counts.includes(x.name))
  );
}

interface Total {
  readonly least: Figure<Quantity> | null;
  /** Null where the content of any of them is open at this end. */
  readonly most: Figure<Quantity> | null;
  /** By the highest content that is stated of each. */
  readonly highestStated: Figure<Quantity> | null;
}

function total(limit: Limit, holding: readonly Portion[]): Total {
  const each = holding.map(({ monograph, daily }) =>
    limit.counts.map((marker) => (monograph && daily ? markerIn(monograph, marker, daily, milligram) : null)),
  );
  const lows = each.flat().flatMap((b) => b?.least ?? []);
  const highs = each.flat().map((b) => b?.most ?? null);
  const stated = each.flat().flatMap((b) => b?.highestStated ?? []);
  return {
    least: lows.length > 0 ? sum(lows, `${limit.id} in a day, at the least`) : null,
    most:
      highs.every((f) => f !== null) && highs.length > 0
        ? sum(highs as Figure<Quantity>[], `${limit.id} in a day, at the most`)
        : null,
    highestStated:
      stated.length > 0 ? sum(stated, `${limit.id} in a day, by the highest content stated`) : null,
  };
}

const sum = (figures: readonly Figure<Quantity>[], says: string): Figure<Quantity> =>
  figures.length === 1
    ? (figures[0] as Figure<Quantity>)
    : worked(figures.map((f) => f.value).reduce(plus), says, figures.map(() => '{}').join(' + '), figures);

function judge(limit: Limit, holding: readonly Portion[], c: Case): Finding[] {
  const source = citeIn(c.intake, limit);
  const most = mayTake(limit, c);
  if (most === null) return [];
  const taken = total(limit, holding);
  // At the high end of the stated content; where that end is open, what is stated may be above all the same.
  const counted = taken.most ?? taken.highestStated;
  const above = counted !== null && compareQuantities(counted.value, most.value) > 0;
  if (!above && taken.most !== null) return [];
  const herbs = [...new Set(holding.filter((p) => p.given).map((p) => p.herb))].sort();
  return herbs.map((herb) =>
    finding({
      rule: 'intake-limit',
      herb,
      subject: limit.id,
      ...c.levels.judged(above ? 'above-intake-limit' : 'intake-unbounded'),
      say: above
        ? [
            `${limit.id}:`,
            counted as Figure,
            `a day ${taken.most ? 'at the most' : 'or more'}, over everything taken, and`,
            `${source.body} gives`,
            most,
            'a day at the most',
          ]
        : taken.least
          ? [
              `${limit.id}:`,
              taken.least,
              'a day or more, and how much more cannot be told;',
              `${source.body} gives`,
              most,
              'a day at the most',
            ]
          : [
              `how much ${limit.id} is taken in a day cannot be told;`,
              `${source.body} gives`,
              most,
              'at the most',
            ],
      figures: [...(counted ? [counted] : []), ...(taken.least ? [taken.least] : []), most],
      source,
      facts: {
        limit: most.value,
        counts: limit.counts,
        taken: holding.map((p) => [p.herb, p.from, p.daily?.value ?? null]),
        least: taken.least?.value ?? null,
        most: counted?.value ?? null,
      },
    }),
  );
}

/** The limit for this person; null where it goes by a weight that is not known, which is asked. */
function mayTake({ daily, daily_per_kg: perKg, ...fact }: Limit, c: Case): Figure<Quantity> | null {
  const source = citeIn(c.intake, fact);
  if (daily) return given(daily, `${fact.id}, most in a day`, source);
  const weight = c.person?.weight;
  if (!perKg || !weight) return null;
  const rated = given(perKg, `${fact.id}, most in a day for each kg`, source);
  const rate = inUnit(perKg, per(milligram, kilogram)).value;
  const value = quantity(rate.times(inUnit(weight, kilogram).value), milligram);
  return worked(value, `${fact.id}, most in a day`, '{} x {}', [rated, given(weight, 'body weight')]);
}

/** Limits that go by a weight which was not given, with the herbs that they are about. */
export function weightAskedFor(c: Case): string[] {
  if (c.person === null || c.person.weight !== null) return [];
  const portions = regimen(c).filter((p) => p.given);
  return c.intake.limits.flatMap((limit) =>
    limit.daily_per_kg && isForThem(limit, c)
      ? portions.filter((p) => holds(p, limit)).map((p) => p.herb)
      : [],
  );
}
