import type { When } from '../folder/schema/monograph.ts';
import type { Named } from './when.ts';

/** For whom something is said, in plain English. */

const OF_LIST: Readonly<Record<Named['key'], string>> = {
  medicine: 'with',
  condition: 'in',
  allergy: 'with an allergy to',
  taking: 'together with',
};

const PHRASE: readonly [keyof When, string][] = [
  ['pregnant', 'in pregnancy'],
  ['breastfeeding', 'while breastfeeding'],
  ['trying_to_conceive', 'when trying to conceive'],
  ['surgery_within', 'before the planned operation'],
  ['drives', 'for someone who drives'],
  ['avoids_alcohol', 'for someone who avoids alcohol'],
  ['fluid_restricted', 'for someone told to limit fluids'],
  ['age', 'at this age'],
];

/** What met a condition, then what else it asks of the person. */
export function phraseFor(when: When, names: readonly Named[]): string {
  return [
    ...names.map((n) => `${OF_LIST[n.key]} ${n.said}`),
    ...PHRASE.flatMap(([key, words]) => (when[key] === undefined || when[key] === false ? [] : [words])),
  ].join(', ');
}

/** `a, b and c`. */
export const inWords = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
