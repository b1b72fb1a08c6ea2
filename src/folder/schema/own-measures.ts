import * as z from 'zod';
import { ambiguousWord, unitByName } from '../../measure/units.ts';
import { quantity } from './fields.ts';
import { type Told, withRules } from './rules.ts';

/** Measures by name, such as a dropper of 0.8 mL. Their sizes are in units that mean the same to everyone. */
const measures = z.record(
  z.string(),
  quantity(['mass', 'volume']).refine(
    (q) => q.value.gt(0),
    'a measure holds something: write its size above 0',
  ),
);

/** A quantity may name its measure in the plural, so a name is taken in either number. */
const forms = (name: string): string[] => [name, `${name}s`, `${name}es`];

function namedOnce(names: readonly string[], { wrong }: Told): void {
  const seen = new Set<string>();
  for (const name of names) {
    const key = name.toLowerCase();
    if (seen.has(key))
      wrong([name], `"${name}" stands here twice, small and capital letters alike: keep one`);
    if (/^\d/.test(name))
      wrong([name], `"${name}" begins with a figure: begin the name of a measure with a letter`);
    seen.add(key);
  }
}

/**
 * The practice's measures: none may bear the name of a unit, so that a formula reads the same in every practice that
 * it can be read in at all.
 */
export const practiceMeasures = withRules(measures, (map, told) => {
  const names = Object.keys(map);
  namedOnce(names, told);
  for (const name of names) {
    if (forms(name).some((n) => unitByName(n) ?? ambiguousWord(n)))
      told.wrong([name], `"${name}" is already the name of a unit: choose another name`);
  }
});

/** A formula's measures, in this formula alone: they may settle what a cup holds, never what a gram is. */
export const formulaMeasures = withRules(measures, (map, told) => {
  const names = Object.keys(map);
  namedOnce(names, told);
  for (const name of names) {
    const unit = unitByName(name);
    if (unit && unit.nominal !== true && unit.dimension !== 'count')
      told.wrong([name], `"${name}" already means ${unit.symbol}: choose another name`);
  }
});
