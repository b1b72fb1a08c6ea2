import { expect, it } from 'vitest';
import { libraryFaults } from '../../src/folder/library-laws.ts';
import { readText } from '../../src/folder/read.ts';

/** A monograph of two doses, in words that a test changes. */
async function faults(change: (yaml: string) => string): Promise<string[]> {
  const yaml = `id: marsh-star-herb
names: {latin: Stella palustris L., common: marsh star}
family: Asteraceae
part: herb
checked: null
sources: {a: {body: A body, title: A text, reading: original}}
doses:
  - {preparation: {kind: infusion}, route: oral, ages: 12+ years, single: 2 g, source: a}
  - {preparation: {kind: infusion}, route: oral, ages: 6-12 years, single: 1 g, source: a}
interactions: not-read
gather: {months: [5, 6], seasons: [{months: [5], source: a}, {months: [6], source: a}], source: a}
`;
  const read = await readText('monograph', change(yaml), 'monographs/marsh-star-herb.yaml', null, 'x');
  if (!read.ok) throw new Error(JSON.stringify(read.why));
  return libraryFaults(read.value.value).map((f) => `${f.path.join('.')}: ${f.message}`);
}

it('is quiet about a monograph in order', async () => {
  expect(await faults((y) => y)).toEqual([]);
});

it('tells of a Latin name without its author', async () => {
  expect(await faults((y) => y.replace('Stella palustris L.', 'Stella palustris'))).toEqual([
    'names.latin: "Stella palustris" lacks its author: write such as Urtica dioica L.',
  ]);
});

it('tells of ages that meet with other figures, unless a note says why', async () => {
  const overlapping = (y: string): string => y.replace('6-12 years', '6-14 years');
  expect(await faults(overlapping)).toEqual([
    expect.stringMatching(/^doses\.1: its ages meet those of dose 1 .* single differ/),
  ]);
  expect(
    await faults((y) => overlapping(y).replace('single: 1 g,', 'single: 1 g, note: small children,')),
  ).toEqual([]);
  expect(await faults((y) => overlapping(y).replace('single: 1 g,', 'single: 2 g,'))).toEqual([]);
});

it('tells of a season whose month is not among the months', async () => {
  expect(await faults((y) => y.replace('{months: [6], source: a}', '{months: [7], source: a}'))).toEqual([
    'gather.seasons.1: month 7 is not among the months above: add it there',
  ]);
});
