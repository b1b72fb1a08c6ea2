import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  CODES,
  envelopes,
  FORMULAS,
  type Json,
  json,
  ON,
  patient,
  practiceFolder,
  put,
  removeFolders,
  run,
  TEA,
} from './scruple.ts';

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const check = (...args: string[]) => run(['check', ...args, '--on', ON], { cwd: folder });
const checked = (...args: string[]): Json => json(['check', ...args, '--on', ON], { cwd: folder });
const words = (text: string): string => text.replace(/\s+/g, ' ');

/** Every question answered, on the command line alone. */
const ADULT: readonly (readonly [string, string])[] = [
  ['--age', '42 years'],
  ['--weight', '74 kg'],
  ['--sex', 'male'],
  ['--condition', 'none'],
  ['--medicine', 'none'],
  ['--allergy', 'none'],
  ['--taking', 'none'],
  ['--drives', 'no'],
  ['--avoids-alcohol', 'no'],
  ['--fluid-restricted', 'no'],
  ['--surgery', 'none'],
];
const adultBut = (flag: string, answer: string): string[] =>
  ADULT.flatMap(([f, a]) => [f, f === flag ? answer : a]);

describe('the exit status is the verdict', () => {
  test.each([
    ['clear', 0, ['still-night', '--patient', patient('S-104')]],
    ['decide', 3, ['after-supper', '--patient', patient('S-108')]],
    ['ask', 4, ['after-supper', '--patient', patient('S-107')]],
    ['withhold', 5, ['stiff-joints', '--patient', patient('S-106')]],
  ])('%s is %i', (verdict, code, args) => {
    const ran = check(...args, '--json');
    expect(ran.code).toBe(code);
    expect(envelopes(ran)[0].result.verdict).toBe(verdict);
    expect(ran.err).toBe('');
  });

  test('of several people the gravest counts', () => {
    const people = ['S-104', 'S-106', 'S-108'].flatMap((c) => ['--patient', patient(c)]);
    const ran = check('stiff-joints', ...people, '--json');
    expect(envelopes(ran).map((e) => e.result.patient)).toEqual(['S-104', 'S-106', 'S-108']);
    expect(ran.code).toBe(5);
  });

  test('is 2 where a file or the command line is wrong, and then nothing is judged', () => {
    put(folder, 'broken.yaml', readFileSync(patient('S-104'), 'utf8').replace('sex: male', 'sex: mle'));
    const ran = check('stiff-joints', '--patient', patient('S-106'), '--patient', 'broken.yaml');
    expect(ran.code).toBe(2);
    expect(ran.out).toBe('');
    expect(ran.err).toMatch(/^broken\.yaml:6:1: "mle" is not a choice here: did you mean male\?/);
    expect(check('stiff-joints', '--patient', 'nobody.yaml').code).toBe(2);
    expect(check('stif-joints').err).toMatch(/did you mean stiff-joints\?/);
  });
});

describe('willow bark', () => {
  test('is not clear for someone on warfarin', () => {
    const { result, findings } = checked('stiff-joints', ...adultBut('--medicine', 'warfarin'));
    expect(result.verdict).toBe('withhold');
    const willow = findings.filter((f: Json) => f.herb === 'willow-bark' && f.say.includes('warfarin'));
    expect(willow.map((f: Json) => f.level)).toContain('withhold');
  });

  test('is clear for the same adult without it, by flags alone', () => {
    const ran = run(
      [
        'check',
        'stiff-joints',
        '--age',
        '42 years',
        '--weight',
        '74 kg',
        '--sex',
        'male',
        '--condition',
        'none',
        '--medicine',
        'none',
        '--allergy',
        'none',
        '--taking',
        'none',
        '--drives',
        'no',
        '--avoids-alcohol',
        'no',
        '--fluid-restricted',
        'no',
        '--surgery',
        'none',
      ],
      { cwd: folder },
    );
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/^Clear/);
    expect(ran.out).not.toMatch(/^(WITHHOLD|ASK|DECIDE)/m);
  });

  test('is withheld from someone allergic to aspirin, whichever way that is said', () => {
    for (const word of ['aspirin', 'Aspirin', 'salicylates', 'willow bark'])
      expect(checked('stiff-joints', ...adultBut('--allergy', word)).result.verdict, word).toBe('withhold');
  });
});

describe('flags that would pass for an answer', () => {
  test.each([
    ['--medicine', ''],
    ['--medicine', ' , '],
    ['--condition', ''],
    ['--allergy', ''],
    ['--taking', ''],
  ])('%s %j is no answer, and above all not none', (flag, word) => {
    const ran = check('after-supper', ...adultBut(flag, word));
    expect({ code: ran.code, out: ran.out }).toEqual({ code: 2, out: '' });
    expect(ran.err).toBe(`command line: ${flag} is empty: write a name, or none\n`);
  });

  test('none beside a name is a slip', () => {
    const ran = check('after-supper', '--medicine', 'none', '--medicine', 'warfarin');
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/--medicine names warfarin and says none/);
  });

  test('several names stand in one flag or in several', () => {
    const medicines = (...args: string[]): string => words(check('after-supper', ...args).out);
    expect(medicines('--medicine', 'warfarin, digoxin')).toContain('medicines warfarin, digoxin');
    expect(medicines('--medicine', 'warfarin', '--medicine', 'digoxin')).toContain('warfarin, digoxin');
  });
});

describe('a word that is not understood', () => {
  test('is asked about, with the near ones named', () => {
    const ran = check('stiff-joints', ...adultBut('--medicine', 'warfarn'));
    expect(ran.code).toBe(4);
    expect(words(ran.out)).toContain('"warfarn" is not understood: did you mean warfarin?');
    expect(words(ran.out)).toMatch(/medicines "warfarn" \(not understood\)/);
  });

  test.each([
    ['--medicine', 'qwertyuiop'],
    ['--condition', 'qwertyuiop'],
    ['--allergy', 'qwertyuiop'],
    ['--taking', 'qwertyuiop'],
  ])('%s %s is never passed over', (flag, word) => {
    const { result, findings } = checked('after-supper', ...adultBut(flag, word));
    expect(result.verdict).toBe('ask');
    expect(findings.map((f: Json) => f.rule)).toContain('unknown-word');
  });
});

describe('without a patient', () => {
  test('the sheet says in its title that no person was considered', () => {
    const ran = check('after-supper');
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/^No person considered: /);
    expect(ran.out).toContain('Next: scruple check after-supper --patient FILE');
    expect(checked('after-supper').result).toMatchObject({ verdict: 'note', patient: null });
  });

  test('a formula without directions is asked about all the same', () => {
    put(folder, 'formulas/river-tea.yaml', TEA.replace(/^directions:.*\n/m, ''));
    const ran = check('river-tea');
    expect(ran.code).toBe(4);
    expect(words(ran.out)).toContain('river-tea has no directions');
  });
});

test('the verdict comes first, the gravest findings next, and what was judged is written out', () => {
  const { out } = check('winter-chest', '--patient', patient('S-108'));
  const levels = [...out.matchAll(/^(WITHHOLD|ASK|DECIDE|NOTE)\b/gm)].map(([, level]) => level);
  const order = ['WITHHOLD', 'ASK', 'DECIDE', 'NOTE'];
  expect(levels).toEqual([...levels].sort((a, b) => order.indexOf(a ?? '') - order.indexOf(b ?? '')));
  expect(out).toMatch(/^Withhold: do not hand it over\n/);
  expect(out).toMatch(/^ {2}takes already +senna-leaf$/m);
  expect(words(out)).toContain('medicines digoxin, furosemide, ramipril, apixaban, bisoprolol');
  expect(words(check('winter-chest', '--patient', patient('S-107')).out)).toContain('medicines not asked');
});

test('each document is cited in full once, and each finding by its letter', () => {
  const { out } = check('winter-chest', '--patient', patient('S-108'));
  const letters = [...out.matchAll(/Source: ([a-z]+), /g)].map(([, letter]) => letter);
  expect(letters.length).toBeGreaterThan(2);
  for (const letter of new Set(letters)) expect(out).toMatch(new RegExp(`^  ${letter} \\S`, 'm'));
  expect(out.split('EMA/HMPC/571119/2010')).toHaveLength(2);
});

test('id and basis of a finding, which a decision has to name, stand on the sheet', () => {
  const args = ['stiff-joints', '--patient', patient('S-106')];
  const flat = words(check(...args).out);
  for (const { id, basis } of checked(...args).findings) expect(flat).toContain(`${id} basis ${basis}`);
});

describe('JSON has the keys that scripts rely on', () => {
  test.each(FORMULAS)('%s, for everybody', (formula) => {
    const ran = check(formula, ...CODES.flatMap((c) => ['--patient', patient(c)]), '--json');
    const all = envelopes(ran);
    expect(all.map((e) => e.result.patient)).toEqual(CODES);
    for (const { result, findings, problems, command } of all) {
      expect(command).toBe('check');
      expect(problems).toEqual([]);
      expect(result).toMatchObject({ formulas: [formula] });
      const ids = findings.map((f: Json) => f.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const f of findings) {
        expect(['withhold', 'ask', 'decide', 'note']).toContain(f.level);
        expect(f.id.startsWith(`${f.rule}/`)).toBe(true);
        expect(f.basis).toMatch(/^[0-9a-f]{12}$/);
        expect(f.say).toMatch(/\S/);
        for (const key of ['herb', 'source', 'reading']) expect(f).toHaveProperty(key);
        expect(f.source === null).toBe(f.reading === null);
      }
      const gravest = findings[0]?.level ?? 'clear';
      expect(result.verdict).toBe(gravest);
    }
  });

  test('two formulas at once are judged together', () => {
    const { result } = checked('after-supper', 'stiff-joints', 'after-supper', '--patient', patient('S-104'));
    expect(result.formulas).toEqual(['after-supper', 'stiff-joints']);
  });
});

test('no sentence has a stray space before its punctuation or after a bracket', () => {
  for (const formula of FORMULAS) {
    const people = CODES.flatMap((c) => ['--patient', patient(c)]);
    const flat = words(check(formula, ...people).out);
    expect(flat).not.toMatch(/ [,;)](?!\S)| \.(?= |$)|\( /);
    for (const e of envelopes(check(formula, ...people, '--json')))
      for (const f of e.findings) expect(f.say).not.toMatch(/ [,;.:)]|\( |^\s|\s$/);
  }
});
