import { type EthanolTaken, ethanolPerKg } from '../compounding/ethanol-taken.ts';
import { citeIn } from '../folder/cite-in.ts';
import type { EthanolTable } from '../folder/schema/reference.ts';
import { all, hasReached, type Ternary } from '../measure/age.ts';
import { type Cited, type Figure, given } from '../measure/figure.ts';
import { compareQuantities, type Quantity } from '../measure/quantity.ts';
import { type Case, oncePerCase } from './case.ts';
import type { Level } from './level.ts';
import type { Person, Question } from './person.ts';
import { type Met, meets } from './when.ts';

export type EthanolRule = EthanolTable['rules'][number];

/** A rule of the table weighed for one formula and the person. */
export interface EthanolWeighed {
  readonly formula: string;
  readonly taken: EthanolTaken;
  readonly rule: EthanolRule;
  readonly source: Cited;
  readonly level: Level;
  readonly holds: Ternary;
  readonly met: Met;
  /** mg/kg of one dose, by the person's weight. */
  readonly perKg: Figure<Quantity> | null;
  /** What has to be asked before it can be told. */
  readonly open: readonly Question[];
}

const ADULT_MONTHS = 18 * 12;

/**
 * Every rule about ethanol, for each formula that holds some. How much it is counts by body weight and dose; where the
 * weight is not known, an adult is taken to weigh no less than the table says, so that a small dose raises no question.
 */
export const ethanolWeighed = oncePerCase<readonly EthanolWeighed[]>(weigh);

function weigh(c: Case): EthanolWeighed[] {
  const { person, ethanol: table } = c;
  if (person === null || table === null) return [];
  return c.formulas.flatMap(({ formula, batch }) => {
    const taken = batch.ethanol;
    if (taken === null) return [];
    const perKg = person.weight ? ethanolPerKg(taken, given(person.weight, 'body weight')) : null;
    return table.rules.flatMap((rule): EthanolWeighed[] => {
      const level = c.levels.ofSaying(rule.says);
      if (level === null) return [];
      const amount = amountHolds(rule, taken, perKg, person, table, c);
      const met = meets(rule.when, person, c);
      const holds = all([amount, met.holds]);
      const open: Question[] =
        holds === 'unknown' ? [...met.open, ...(amount === 'unknown' ? (['weight'] as const) : [])] : [];
      return [
        {
          formula: formula.formula,
          taken,
          rule,
          source: citeIn(table, rule),
          level,
          holds,
          met,
          perKg,
          open,
        },
      ];
    });
  });
}

function amountHolds(
  rule: EthanolRule,
  taken: EthanolTaken,
  perKg: Figure<Quantity> | null,
  person: Person,
  table: EthanolTable,
  c: Case,
): Ternary {
  if (rule.any === true) return true;
  const limit = rule.above ?? rule.from;
  if (limit === undefined) return false;
  const reaches = (q: Quantity): boolean => {
    const way = compareQuantities(q, limit);
    return rule.above ? way > 0 : way >= 0;
  };
  if (perKg !== null) return reaches(perKg.value);
  const adult = person.birth ? hasReached(person.birth, ADULT_MONTHS, c.on) : 'unknown';
  const lightest = given(table.lightest_adult.weight, 'lightest adult', citeIn(table, table.lightest_adult));
  return adult === true && !reaches(ethanolPerKg(taken, lightest).value) ? false : 'unknown';
}
