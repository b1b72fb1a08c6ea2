/**
 * States of the table of conditions that nobody lists among their conditions, because each is a question of its own:
 * by what a caution has to say instead of `condition`, where it would never be found.
 */
const OWN_QUESTIONS: ReadonlyMap<string, string> = new Map([
  ['pregnancy', 'pregnant: yes'],
  ['first_trimester', 'pregnant: {weeks: 0-13}'],
  ['second_trimester', 'pregnant: {weeks: 14-27}'],
  ['third_trimester', 'pregnant: {weeks: 28-42}'],
  ['breastfeeding', 'breastfeeding: yes'],
  ['trying_to_conceive', 'trying_to_conceive: yes'],
  ['infancy', 'age: under 2 years'],
  ['child', 'age: 2-12 years'],
  ['adolescent', 'age: 12-18 years'],
  ['older_adult', 'age: 65+ years'],
]);

/** What to write for a condition that is a question of its own; undefined for any other. */
export const ownQuestion = (condition: string): string | undefined => OWN_QUESTIONS.get(condition);
