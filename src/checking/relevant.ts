import { type Case, herbsOf, oncePerCase } from './case.ts';
import { cautionsWeighed } from './cautions.ts';
import { effectQuestions } from './effects.ts';
import { ethanolWeighed } from './ethanol.ts';
import { isGiven, type Question } from './person.ts';
import { weightAskedFor } from './rules/intake-limit.ts';
import { stagesWeighed } from './rules/stage.ts';

const BY_KEY: Readonly<Record<string, Question>> = {
  allergy: 'allergies',
  condition: 'conditions',
  medicine: 'medicines',
  pregnant: 'pregnant',
  trying_to_conceive: 'trying_to_conceive',
  breastfeeding: 'breastfeeding',
  age: 'age',
  sex: 'sex',
  taking: 'taking',
  surgery_within: 'surgery',
  drives: 'drives',
  avoids_alcohol: 'avoids_alcohol',
  fluid_restricted: 'fluid_restricted',
};

const ethanolOf = (formula: string): string => `the ethanol in ${formula}`;

type HerbsByQuestion = Map<Question, Set<string>>;

function note(into: HerbsByQuestion, question: Question, herb: string): void {
  into.set(question, (into.get(question) ?? new Set()).add(herb));
}

/** Questions without an answer that leave something open which would be more than a note, with the herbs concerned. */
export function openQuestions(c: Case): HerbsByQuestion {
  const found: HerbsByQuestion = new Map();
  const { person } = c;
  if (person === null) return found;
  for (const w of cautionsWeighed(c)) {
    if (w.met.holds === 'unknown' && w.level !== 'note')
      for (const q of w.met.open) note(found, q, w.herb.herb);
  }
  for (const w of ethanolWeighed(c))
    if (w.level !== 'note') for (const q of w.open) note(found, q, ethanolOf(w.formula));
  for (const s of stagesWeighed(c)) {
    if (s.met.holds === 'unknown') for (const q of s.met.open) note(found, q, s.herb.herb);
  }
  for (const herb of weightAskedFor(c)) note(found, 'weight', herb);
  for (const [question, herbs] of alwaysRelevant(c)) {
    if (!isGiven(person, question)) for (const h of herbs) note(found, question, h);
  }
  return found;
}

/** Questions that these herbs raise whatever the answers are, for the person for whom they arise. */
export function relevantQuestions(c: Case): HerbsByQuestion {
  const found: HerbsByQuestion = new Map();
  const { person } = c;
  if (person === null) return found;
  for (const w of cautionsWeighed(c)) {
    if (w.level === 'note') continue;
    for (const [key, value] of Object.entries(w.caution.when)) {
      const question = BY_KEY[key];
      if (question && value !== undefined) note(found, question, w.herb.herb);
    }
  }
  for (const w of ethanolWeighed(c)) {
    if (w.level === 'note' || w.holds === false) continue;
    for (const key of Object.keys(w.rule.when)) note(found, BY_KEY[key] as Question, ethanolOf(w.formula));
    if (w.rule.any !== true && person.weight !== null) note(found, 'weight', ethanolOf(w.formula));
  }
  for (const s of stagesWeighed(c)) note(found, s.question, s.herb.herb);
  for (const [question, herbs] of alwaysRelevant(c)) for (const h of herbs) note(found, question, h);
  for (const question of found.keys())
    if (c.questions.arises(question, person) === false) found.delete(question);
  return found;
}

/**
 * Age (every dose is for an age), allergies (anyone may be allergic to the plant itself), medicines wherever the
 * interactions of a herb were not read, what is taken already wherever a source says when to stop, and what its effects
 * call for.
 */
const alwaysRelevant = oncePerCase((c: Case): HerbsByQuestion => {
  const found: HerbsByQuestion = new Map();
  for (const h of herbsOf(c)) {
    note(found, 'age', h.herb);
    note(found, 'allergies', h.herb);
    if (h.monograph?.interactions === 'not-read') note(found, 'medicines', h.herb);
    if (h.compared.some((x) => x.entry.stop_after !== undefined)) note(found, 'taking', h.herb);
  }
  for (const { question, herb } of effectQuestions(c)) note(found, question, herb);
  return found;
});
