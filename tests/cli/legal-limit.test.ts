import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Json, json, ON, patient, practiceFolder, put, removeFolders, run } from './scruple.ts';

/** Lobelia, 200 mg at once and 600 mg in a day: S.I. 2012/1916, Schedule 20 Part 2. */

const drops = (id: string, take: string, times: string) => `formula: ${id}
title: Tight chest drops
ingredients:
  - {herb: lobelia-inflata, form: tincture, ratio: 1:5 w/v, spirit: 60 % v/v, parts: 1}
preparation: {kind: liquid-blend, bottle: 50 mL}
directions: {take: ${take}, times: ${times}, for: 7 days}
`;

let folder = '';
let settings = '';
beforeAll(() => {
  folder = practiceFolder();
  settings = readFileSync(join(folder, 'practice.yaml'), 'utf8');
  put(folder, 'formulas/tight-chest.yaml', drops('tight-chest', '1.5 mL', '2'));
  put(folder, 'formulas/small-chest.yaml', drops('small-chest', '1 mL', '3'));
});
afterAll(removeFolders);

const under = (law: string | null): void => {
  const line = law === null ? '' : `jurisdiction: ${law}`;
  put(folder, 'practice.yaml', settings.replace(/^jurisdiction: .*$/m, line));
};
const legal = (id: string): Json[] =>
  json(['check', id, '--patient', patient('S-104'), '--on', ON], { cwd: folder }).findings.filter(
    (f: Json) => f.rule === 'legal-limit',
  );

describe('a practice in the United Kingdom', () => {
  test('withholds 1.5 mL of a 1:5 tincture of lobelia, and says by which text of the law', () => {
    under('UK');
    const ran = run(['check', 'tight-chest', '--patient', patient('S-104'), '--on', ON], { cwd: folder });
    expect(ran.code).toBe(5);
    const out = ran.out.replace(/\s+/g, ' ');
    expect(out).toContain(
      'lobelia-inflata: 300 mg in one dose, and the law of the United Kingdom allows 200 mg',
    );
    expect(out).toContain('Schedule 20 Part 2; read in S.I. 2012/1916 as amended');
    for (const line of ran.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('finds nothing in 1 mL three times a day, whose herb only lacks its monograph', () => {
    under('UK');
    expect(legal('small-chest')).toEqual([]);
  });
});

test('Canada allows 130 mg at once, so that 1 mL is too much there', () => {
  under('CA');
  expect(legal('small-chest').map((f) => f.level)).toEqual(['withhold', 'withhold']);
});

test('a practice that has not said where it is is asked', () => {
  under(null);
  const [f, ...more] = legal('small-chest');
  expect(more).toEqual([]);
  expect(f.level).toBe('ask');
  expect(f.say).toContain('into practice.yaml');
});

test("a slip in the practitioner's own entries is told, and nothing is judged", () => {
  under('UK');
  const own = 'monographs/reference/legal-limits.own.yaml';
  put(folder, own, 'table: legal-limits\nlimits: [{id: x, law: nowhere, common: [thyme]}]\n');
  const ran = run(['check', 'small-chest', '--on', ON], { cwd: folder });
  put(folder, own, 'table: legal-limits\n');
  expect(ran.code).toBe(2);
  expect(ran.out).toBe('');
  expect(ran.err).toContain('x names the law "nowhere", which is not among its laws');
});

test('a herb that the law limits is weighed out rounded down, and the sheet says so', () => {
  put(
    folder,
    'formulas/chest-powder.yaml',
    `formula: chest-powder
title: Chest powder
ingredients:
  - {herb: aniseed, form: powder, parts: 3}
  - {herb: lobelia-inflata, form: powder, parts: 1}
  - {herb: thyme-herb, form: powder, parts: 2}
preparation: {kind: powder}
directions: {take: 0.5 g, times: 3, for: 7 days}
`,
  );
  const lobelia = (): Json =>
    json(['weigh', 'chest-powder', '--make', '10 g'], { cwd: folder }).result.lines.find(
      (l: Json) => l.herb === 'lobelia-inflata',
    );
  under('UK');
  expect(lobelia()).toMatchObject({ weigh: { value: '1.6' }, rounded_down: true });
  const { out } = run(['weigh', 'chest-powder', '--make', '10 g'], { cwd: folder });
  expect(out.replace(/\s+/g, ' ')).toContain(
    'Rounded down, as the law limits how much there may be of it: lobelia-inflata.',
  );
  expect(out).toMatch(/^thyme-herb \(powder\) +3\.4 +3\.33 +2$/m);
  under('NZ');
  expect(lobelia()).toMatchObject({ weigh: { value: '1.7' } });
});
