import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/cli/commands/check.ts';
import type { PersonOptions } from '../../src/cli/options.ts';
import { folderWith } from '../checking/judge.ts';
import { herb, tea } from '../checking/small.ts';

/** What is amiss with the files, as `file: message`; empty where the check was run. */
async function amiss(
  files: Readonly<Record<string, string>>,
  answers: Partial<PersonOptions> = {},
): Promise<string[]> {
  const outcome = await check(['test-tea'], { folder: folderWith(files), on: '2026-05-02', ...answers });
  return outcome.ok ? [] : outcome.problems.map((p) => `${p.file}:${p.line ?? '-'} ${p.message}`);
}

const barred = (when: string) => ({
  ...herb({ cautions: `\n  - {when: {${when}}, says: contraindicated, why: x, source: a}` }),
  ...tea(),
});

describe('a word of a monograph that no table knows', () => {
  it.each([
    ['medicine: [warfrin]', { medicine: ['paracetamol'] }, '"warfrin" is no medicine'],
    ['condition: [astma]', { condition: ['gout'] }, '"astma" is no condition'],
    ['allergy: [asteracea]', { allergy: ['penicillin'] }, '"asteracea" is no allergy'],
    ['taking: [sena-leaf]', {}, 'there is no monograph "sena-leaf": did you mean senna-leaf'],
  ])('in {%s} is a fault of that file, at its place, and nothing is judged', async (when, answers, why) => {
    const [first, ...more] = await amiss(barred(when), answers);
    expect(more).toEqual([]);
    expect(first).toMatch(/^monographs\/test-herb\.yaml:\d+ /);
    expect(first).toContain(why);
  });

  it('among the uses is one too, in a caution, a floor, a dose and the formula itself', async () => {
    const limited = 'use: slep, source: a}]';
    const doses = `[{preparation: {kind: infusion}, route: oral, single: 1-3 g, ${limited}`;
    for (const keys of [
      { cautions: `[{when: {}, says: tell, why: x, ${limited}` },
      { ages: `[{not_under: 12 years, because: x, ${limited}` },
      { doses },
    ])
      expect((await amiss({ ...herb(keys), ...tea() }))[0]).toContain('"slep" is not in the list of uses');
    const [first] = await amiss({ ...herb(), ...tea({ use: 'slep' }) });
    expect(first).toContain('formulas/test-tea.yaml');
    expect(first).toContain('did you mean sleep?');
  });

  it('among its effects, and a medicine of the table of effects, is one too', async () => {
    const [first] = await amiss({ ...herb({ effects: '[sedaton]' }), ...tea() });
    expect(first).toMatch(/^monographs\/test-herb\.yaml:\d+ "sedaton" is not among the effects/);
    expect(first).toContain('did you mean sedation?');
    const table = readFileSync(
      fileURLToPath(new URL('../../monographs/reference/additive-effects.yaml', import.meta.url)),
      'utf8',
    );
    const files = {
      ...herb(),
      ...tea(),
      'monographs/reference/additive-effects.yaml': table.replace('[cns_depressants]', '[cns_depresants]'),
    };
    const [astray] = await amiss(files, { medicine: ['paracetamol'] });
    expect(astray).toMatch(
      /^monographs\/reference\/additive-effects\.yaml:\d+ "cns_depresants" is no medicine/,
    );
  });

  it.each([
    ['pregnancy', 'pregnant: yes'],
    ['third_trimester', 'pregnant: {weeks: 28-42}'],
    ['breastfeeding', 'breastfeeding: yes'],
    ['older_adult', 'age: 65+ years'],
  ])('is one where it is a question of its own: %s is written %s', async (state, instead) => {
    // A condition that nobody lists, because it is asked by itself, would never be found.
    const [first] = await amiss(barred(`condition: [${state}]`), { pregnant: 'yes', sex: 'female' });
    expect(first).toContain(`write ${instead}`);
  });

  it('is none where every word is known, whatever the person says', async () => {
    const known =
      'medicine: [warfarin, B01AA, anticoagulants], condition: [asthma, rf_chest_pain], allergy: [Testia, Salix, asteraceae, salicylates], taking: [senna-leaf]';
    const answers = { medicine: ['warfarin'], condition: ['asthma'], allergy: ['aspirin'] };
    expect(await amiss(barred(known), answers)).toEqual([]);
    expect(await amiss(barred(known))).toEqual([]);
  });
});

it('every word of the monographs of the library is known', async () => {
  const all = (list: string[]) => list.map((id) => `{herb: ${id}, parts: 1}`).join(', ');
  const herbs = [
    'bitter-fennel-fruit',
    'chamomile-flower',
    'ginger-rhizome',
    'lemon-balm-leaf',
    'liquorice-root',
    'meadowsweet-herb',
    'sage-leaf',
    'senna-leaf',
    'st-johns-wort-herb',
    'sweet-fennel-fruit',
    'thyme-herb',
    'valerian-root',
    'willow-bark',
  ];
  const files = tea({
    ingredients: `[${all(herbs)}]`,
    preparation: '{kind: infusion, herb: 26 g, water: 500 mL, strained: 400 mL, infuse: 10 min}',
  });
  expect(await amiss(files, { medicine: ['warfarin'], condition: ['asthma'], allergy: ['aspirin'] })).toEqual(
    [],
  );
});

describe('a table of levels that leaves something to chance', () => {
  const table = readFileSync(
    fileURLToPath(new URL('../../monographs/reference/levels.yaml', import.meta.url)),
    'utf8',
  );
  const changed = (from: string, to: string) => {
    expect(table).toContain(from);
    return amiss({ ...herb(), ...tea(), 'monographs/reference/levels.yaml': table.replace(from, to) });
  };
  const AVOID = '  - { says: avoid, level: withhold, words: is to be avoided }\n';

  it.each([
    ['a word without its line', AVOID, '', '"avoid" has no level: add its line'],
    [
      'a word with two',
      AVOID,
      `${AVOID}${AVOID.replace('withhold', 'note')}`,
      '"avoid" has 2 levels: keep one',
    ],
    [
      'an outcome that is silenced',
      'unanswered, level: ask',
      'unanswered, level: none',
      '"unanswered" cannot be passed over',
    ],
    [
      'an outcome that no rule comes to',
      'outcome: unanswered',
      'outcome: unansered',
      '"unansered" is nothing that a rule comes to',
    ],
  ])('%s is a fault of the table', async (_, from, to, why) => {
    const faults = await changed(from, to);
    expect(faults.join('\n')).toContain(why);
    expect(faults.every((f) => f.startsWith('monographs/reference/levels.yaml'))).toBe(true);
  });
});
