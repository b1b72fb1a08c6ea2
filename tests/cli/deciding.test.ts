import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  envelopes,
  type Json,
  ON,
  patient,
  practiceFolder,
  put,
  type Ran,
  removeFolders,
  run,
} from './scruple.ts';

/** Deciding, on the command line and in a patient's file, as it is done at the desk. */

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const check = (...args: string[]): Ran => run(['check', ...args, '--on', ON], { cwd: folder });
const words = (text: string): string => text.replace(/\s+/g, ' ');

/** S-108 with what a test adds; after-supper leaves one finding about her to decide, and no question. */
const FENNEL = 'narrow-margin/sweet-fennel-fruit/digoxin';
let files = 0;
function file(more: string, of = 'S-108', change: (text: string) => string = (t) => t): string {
  files += 1;
  return put(folder, `person-${files}.yaml`, `${change(readFileSync(patient(of), 'utf8'))}${more}\n`);
}
const checked = (path: string, formula = 'after-supper', on = ON): Json => {
  const ran = run(['check', formula, '--patient', path, '--on', on, '--json'], { cwd: folder });
  return { ...envelopes(ran)[0], code: ran.code };
};
const found = (answer: Json, id: string): Json => answer.findings.find((f: Json) => f.id === id);
const basisOf = (id: string, of = 'S-108', formula = 'after-supper'): string =>
  found(checked(patient(of), formula), id).basis;
const decision = (more: Record<string, string> = {}, id = FENNEL): string => {
  const all = {
    finding: id,
    basis: basisOf(id),
    because: 'levels taken weekly',
    by: 'AB',
    on: '2026-04-30',
    ...more,
  };
  return `decisions: [{${Object.entries(all)
    .map(([k, v]) => `${k}: ${v}`)
    .join(', ')}}]`;
};

const ASTHMA = 'caution/willow-bark/condition-asthma';
/** A man of forty with asthma, and nothing else. */
const ASTHMATIC = [
  ...['--age', '42 years', '--weight', '74 kg', '--sex', 'male', '--condition', 'asthma'],
  ...['--medicine', 'none', '--allergy', 'none', '--taking', 'none', '--drives', 'no'],
  ...['--avoids-alcohol', 'no', '--fluid-restricted', 'no', '--surgery', 'none'],
];
const accept = (id: string, ...more: string[]): string[] => [
  ...['--decide', id, '--because', 'peak flow is taken daily', '--by', 'AB'],
  ...more,
];

describe('a decision in the patient’s file', () => {
  test('is not there: exit 3, and what to write stands at the foot', () => {
    const ran = check('after-supper', '--patient', patient('S-108'));
    expect(ran.code).toBe(3);
    expect(ran.out).toContain(
      `To decide, write into the patient file, each with your reason:\n\ndecisions:\n  - {finding: ${FENNEL}, basis: ${basisOf(FENNEL)},\n     on: ${ON}, by: "", because: ""}\n`,
    );
  });

  test('pasted without a reason is refused, with its place', () => {
    const pasted = check('after-supper', '--patient', patient('S-108')).out.split('\ndecisions:')[1];
    const ran = check('after-supper', '--patient', file(`decisions:${pasted}`));
    expect({ code: ran.code, out: ran.out }).toEqual({ code: 2, out: '' });
    expect(ran.err).toMatch(/person-\d+\.yaml:16:22: nothing is written here: write some words/);
  });

  test('accepts: the finding stands where it stood, with who, when and why, and the exit is 0', () => {
    const path = file(decision({ until: '2026-08-01' }));
    const ran = check('after-supper', '--patient', path);
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/^Clear as decided by the practitioner, with something to say to the person\n/);
    expect(words(ran.out)).toMatch(
      /DECIDE no interactions of sweet-fennel-fruit .* Accepted by AB on 2026-04-30 \(until 2026-08-01\): levels taken weekly narrow-margin/,
    );
    expect(ran.out).not.toContain('decisions:');
    const answer = checked(path);
    expect(answer.result.verdict).toBe('note');
    expect(found(answer, FENNEL)).toMatchObject({
      level: 'decide',
      counts_as: 'note',
      decision: { because: 'levels taken weekly', by: 'AB', on: '2026-04-30', until: '2026-08-01' },
    });
  });

  test('is null in JSON where there is none, and every finding counts as its level', () => {
    for (const f of checked(patient('S-108')).findings)
      expect(f).toMatchObject({ decision: null, counts_as: f.level });
  });

  test('holds on its last day, and has lapsed on the next', () => {
    const path = file(decision({ until: ON }));
    expect(checked(path).code).toBe(0);
    const after = checked(path, 'after-supper', '2026-05-03');
    expect(after.code).toBe(3);
    expect(found(after, FENNEL).decision).toBeNull();
    expect(found(after, FENNEL).not_counted).toBe(
      'Decided by AB on 2026-04-30, until 2026-05-02, which is past: decide anew',
    );
  });

  test('of a day after the check does not count yet, and that is said', () => {
    const ran = check('after-supper', '--patient', file(decision({ on: '2026-05-03' })));
    expect(ran.code).toBe(3);
    expect(words(ran.out)).toContain(
      'Decided by AB on 2026-05-03, which is after the day of this check: it does not count yet',
    );
  });

  test('with a basis that was mistyped, or of other facts, leaves the finding undecided', () => {
    const ran = check('after-supper', '--patient', file(decision({ basis: '0123456789ab' })));
    expect(ran.code).toBe(3);
    expect(words(ran.out)).toContain(
      'Decided by AB on 2026-04-30, but the facts have changed since: decide anew',
    );
    expect(ran.out).toContain('decisions:');
  });

  test('over before it was made is a slip in one of two dates', () => {
    const ran = check('after-supper', '--patient', file(decision({ until: '2026-04-01' })));
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('over before it was made: one of the two dates is wrong');
  });

  test('about nothing that is found is said once, in a line of the summary', () => {
    const ran = check('still-night', '--patient', file(decision(), 'S-104'));
    expect(ran.code).toBe(0);
    expect(words(ran.out)).toContain(`Decided, and not needed here (any more): ${FENNEL}.`);
    expect(ran.out.split(FENNEL)).toHaveLength(2);
  });

  test('cannot answer a question', () => {
    const id = 'unanswered/formula/medicines';
    const basis = basisOf(id, 'S-107');
    const ran = check('after-supper', '--patient', file(decision({ basis, finding: id }), 'S-107'));
    expect(ran.code).toBe(4);
    expect(words(ran.out)).toContain(
      'Decided by AB on 2026-04-30, but this is a question: it wants an answer',
    );
  });

  test('cannot accept what is prohibited', () => {
    const monograph = join(folder, 'monographs/sweet-fennel-fruit.yaml');
    const text = readFileSync(monograph, 'utf8');
    const [, source] = /^sources:\n {2}([\w-]+):/m.exec(text) ?? [];
    const prohibited = `  - {when: {condition: [heart_failure]}, says: prohibited, why: a law of the test, source: ${source}}`;
    put(
      folder,
      'monographs/sweet-fennel-fruit.yaml',
      text.replace(/^cautions:\n/m, `cautions:\n${prohibited}\n`),
    );
    try {
      const id = checked(patient('S-108')).findings.find((f: Json) => f.say.includes('a law of the test')).id;
      const ran = check('after-supper', '--patient', file(decision({ basis: basisOf(id), finding: id })));
      expect(ran.code).toBe(5);
      expect(words(ran.out)).toContain('Decided by AB on 2026-04-30, but a legal limit cannot be accepted');
      expect(ran.out).not.toMatch(new RegExp(`finding: ${id}`));
      const typed = check('after-supper', '--patient', patient('S-108'), ...accept(id));
      expect({ code: typed.code, out: typed.out }).toEqual({ code: 2, out: '' });
      expect(typed.err).toContain('a legal limit cannot be accepted');
      const filed = check('after-supper', '--patient', patient('S-108'), '--markdown');
      expect(filed.out).toContain('- A legal limit cannot be accepted.');
    } finally {
      put(folder, 'monographs/sweet-fennel-fruit.yaml', text);
    }
  });
});

describe('a decision lapses when its facts change, and not before', () => {
  const DOSE = 'dose/nettle-leaf/nettle-tea-single';
  const tea = (grams: string): string =>
    put(
      folder,
      'formulas/nettle-tea.yaml',
      `formula: nettle-tea
title: Nettle tea
ingredients:
  - {herb: nettle-leaf, parts: 1}
preparation: {kind: infusion, herb: ${grams}, water: 1 L, strained: 500 mL, infuse: 15 min}
directions: {take: all of the pot, times: 1, for: 7 days}
`,
    );

  test('another dose', () => {
    tea('6 g');
    const before = found(checked(patient('S-104'), 'nettle-tea'), DOSE);
    expect(['decide', 'withhold']).toContain(before.level);
    const path = file(decision({ basis: before.basis, finding: DOSE }), 'S-104');
    expect(found(checked(path, 'nettle-tea'), DOSE).decision).not.toBeNull();
    tea('6.5 g');
    const after = found(checked(path, 'nettle-tea'), DOSE);
    expect(after.basis).not.toBe(before.basis);
    expect(after).toMatchObject({ decision: null, counts_as: after.level });
    expect(after.not_counted).toContain('but the facts have changed since: decide anew');
  });

  test('another medicine in the place of the one that was decided about is a finding of its own', () => {
    const apixaban = file(decision(), 'S-108', (t) =>
      t.replace('medicines: [digoxin,', 'medicines: [phenytoin,'),
    );
    const answer = checked(apixaban);
    expect(answer.code).toBe(3);
    expect(found(answer, 'narrow-margin/sweet-fennel-fruit/phenytoin').counts_as).toBe('decide');
    expect(answer.result.summary.decisionsNotNeeded).toEqual([FENNEL]);
  });

  test('the same medicine, stopped and taken again', () => {
    const stopped = file('', 'S-108', (t) =>
      t.replace('[digoxin,', '[{name: digoxin, stopped: 2026-04-25},'),
    );
    const { basis } = found(checked(stopped), FENNEL);
    expect(found(checked(file(decision({ basis }))), FENNEL).not_counted).toContain('facts have changed');
  });

  test('one more medicine that is nothing to it changes nothing', () => {
    const more = file(decision(), 'S-108', (t) => t.replace('medicines: [', 'medicines: [paracetamol, '));
    expect(found(checked(more), FENNEL).counts_as).toBe('note');
  });
});

describe('a word that was looked up', () => {
  const collagen = (lookedUp: string): string =>
    file(lookedUp, 'S-104', (t) => t.replace('medicines: []', 'medicines: [Collagen]'));
  const entry = (on: string): string =>
    `looked_up: [{word: collagen, because: "a protein, taken as food", by: AB, on: ${on}}]`;

  test('is asked about before, and what to write stands at the foot', () => {
    const ran = check('still-night', '--patient', collagen(''));
    expect(ran.code).toBe(4);
    expect(ran.out).toContain(`looked_up:\n  - {word: "Collagen", on: ${ON}, by: "", because: ""}\n`);
  });

  test('counts as decide, and may then be decided', () => {
    const path = collagen(entry('2026-05-01'));
    const ran = check('still-night', '--patient', path);
    expect(ran.code).toBe(3);
    expect(words(ran.out)).toContain(
      'DECIDE medicine "Collagen" is not in the vocabulary; looked up by AB on 2026-05-01: a protein, taken as food',
    );
    expect(ran.out).not.toContain('looked_up:');
    expect(words(ran.out)).toContain('medicines "Collagen" (looked up)');
    const id = 'unknown-word/formula/medicines-collagen';
    expect(check('still-night', '--patient', path, ...accept(id)).code).toBe(0);
  });

  test('too long ago is asked about again', () => {
    const ran = check('still-night', '--patient', collagen(entry('2025-12-01')));
    expect(ran.code).toBe(4);
    expect(words(ran.out)).toContain('which stays good for 60 days: look it up again');
  });

  test('and not needed any more is said once', () => {
    const ran = check('still-night', '--patient', file(entry('2026-05-01'), 'S-104'));
    expect(ran.code).toBe(0);
    expect(words(ran.out)).toContain('Looked up, and not needed here (any more): collagen.');
  });

  test('is not decided on the command line', () => {
    const ran = check(
      'still-night',
      '--patient',
      collagen(''),
      ...accept('unknown-word/formula/medicines-collagen'),
    );
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('is a word to look up, and not to decide: write it under looked_up:');
  });
});

describe('a decision on the command line', () => {
  const willow = (...args: string[]): Ran => check('stiff-joints', ...ASTHMATIC, ...args);

  test('makes what was withheld count as decide, and never hides it', () => {
    expect(willow().code).toBe(5);
    const ran = willow(...accept(ASTHMA));
    expect(ran.code).toBe(3);
    expect(ran.out).toMatch(/^Decide: accepted by the practitioner against a reason to withhold\n/);
    const first = words(ran.out.slice(ran.out.search(/^(WITHHOLD|ASK|DECIDE|NOTE)/m)));
    expect(first).toMatch(
      /^WITHHOLD willow-bark must not be used in asthma: .*? Accepted by AB on 2026-05-02: peak flow is taken daily Source:/,
    );
  });

  test('is what the foot says to type', () => {
    const typed = /^ {2}(--decide \S+ --because) "" --by ""$/m.exec(willow().out)?.[1]?.split(' ') ?? [];
    expect(willow(...typed, 'peak flow is taken daily', '--by', 'AB').code).toBe(3);
    expect(willow(...typed, '', '--by', '').code).toBe(2);
  });

  test('stands beside those of the file, and is to be kept in it', () => {
    const path = file('', 'S-106');
    const [one, two] = [
      'caution/meadowsweet-herb/allergy-salicylates',
      'caution/willow-bark/allergy-salicylates',
    ];
    const ran = check(
      'stiff-joints',
      ...[
        '--patient',
        path,
        '--decide',
        one,
        '--decide',
        two,
        '--decide',
        'caution/willow-bark/medicine-warfarin',
      ],
      ...['--because', 'first: a "mild" rash', '--because', 'second', '--because', 'third'],
      ...[
        '--by',
        'AB',
        '--by',
        'CD',
        '--by',
        'EF',
        '--until',
        'none',
        '--until',
        '2026-08-01',
        '--until',
        'none',
      ],
    );
    expect(ran.code).toBe(3);
    expect(words(ran.out)).toContain('Accepted by AB on 2026-05-02: first: a "mild" rash');
    expect(words(ran.out)).toContain('Accepted by CD on 2026-05-02 (until 2026-08-01): second');
    expect(words(ran.out)).toContain('Accepted by EF on 2026-05-02: third');
    // Warfarin adds to what both herbs do, which is left to be decided in the file.
    const [, blank = ''] = ran.out.split(/To keep what was decided and decide the rest[^:]*:\n/);
    const snippet = blank.replace(/by: "", because: ""/g, 'by: "EF", because: "as above"');
    expect(snippet).not.toBe(blank);
    const again = check('stiff-joints', '--patient', file(snippet, 'S-106'));
    expect(again.code).toBe(3);
    expect(words(again.out)).toContain('Accepted by CD on 2026-05-02 (until 2026-08-01): second');
    expect(words(again.out)).toContain('Accepted by AB on 2026-05-02: first: a "mild" rash');
  });

  test('of a question beside it leaves the question: 5 is above 4 is above 3', () => {
    const asked = ASTHMATIC.map((a) => (a === 'asthma' ? 'asthma, zzyzxol' : a));
    expect(check('stiff-joints', ...asked).code).toBe(5);
    expect(check('stiff-joints', ...asked, ...accept(ASTHMA)).code).toBe(4);
    expect(willow(...accept(ASTHMA)).code).toBe(3);
  });

  test('takes the line below a finding as it was copied, and minds its basis', () => {
    const { basis } = envelopes(willow('--json'))[0].findings.find((f: Json) => f.id === ASTHMA);
    expect(willow(...accept(`${ASTHMA} basis ${basis}`)).code).toBe(3);
    const wrong = willow(...accept(`${ASTHMA} basis 000000000000`));
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain(`has the basis ${basis} and not 000000000000`);
  });

  test('about a note is said to be none', () => {
    const ran = willow(...accept('intake-limit/willow-bark/salicin'));
    expect(ran.code).toBe(5);
    expect(words(ran.out)).toContain('intake-limit/willow-bark/salicin (a note, which needs no decision)');
  });

  test.each<[string, string[], RegExp]>([
    [
      'an id with a slip',
      accept('caution/willow-bark/condition-astma'),
      /did you mean caution\/willow-bark\/condition-asthma\?/,
    ],
    ['half an id', accept('willow asthma'), /did you mean caution\/willow-bark\/condition-asthma\?/],
    [
      'an id in braces',
      accept('caution/{willow-bark,x}/condition-asthma'),
      /did you mean caution\/willow-bark\/condition-asthma\?/,
    ],
    ['a wild id', accept('zzz'), /there is caution\/willow-bark\/condition-asthma to decide/],
    ['an empty id', accept(''), /--decide is empty: write the id of a finding/],
    [
      'no reason',
      ['--decide', ASTHMA, '--by', 'AB'],
      /--decide stands once and --because not at all: write --decide ID --because "your reason" --by XX/,
    ],
    [
      'an empty reason',
      ['--decide', ASTHMA, '--because', ' ', '--by', 'AB'],
      /--because is empty for caution\/willow-bark\/condition-asthma: write the reason/,
    ],
    ['nobody', ['--decide', ASTHMA, '--because', 'x'], /--decide stands once and --by not at all/],
    [
      'an empty name',
      ['--decide', ASTHMA, '--because', 'x', '--by', ''],
      /--by is empty for .*: write the initials/,
    ],
    ['a reason for nothing', ['--because', 'x'], /--because belongs to a decision: write --decide ID/],
    [
      'two ids and one reason',
      [...accept(ASTHMA), '--decide', 'x', '--by', 'AB'],
      /--decide stands twice and --because once/,
    ],
    [
      'the same twice',
      [...accept(ASTHMA), ...accept(ASTHMA)],
      /--decide caution\/willow-bark\/condition-asthma stands twice: keep one/,
    ],
    [
      'an end that is no day',
      accept(ASTHMA, '--until', 'summer'),
      /--until "summer" is not a date: write year-month-day/,
    ],
    [
      'an end that is past',
      accept(ASTHMA, '--until', '2026-05-01'),
      /--until 2026-05-01 is before the day of the decision, 2026-05-02/,
    ],
    [
      'one end for two',
      [...accept(ASTHMA), ...accept('x'), '--until', ON],
      /--until once: write one for each, --until none where it has no end/,
    ],
  ])('with %s is exit 2, in words, and nothing is judged', (_, args, says) => {
    const ran = willow(...args);
    expect({ code: ran.code, out: ran.out }).toEqual({ code: 2, out: '' });
    expect(ran.err).toMatch(says);
    expect(ran.err).toMatch(/^command line: /);
  });

  test('is about one person', () => {
    expect(check('stiff-joints', ...accept(ASTHMA)).err).toMatch(/--decide is about a person: name them/);
    const two = ['--patient', patient('S-106'), '--patient', patient('S-104')];
    expect(check('stiff-joints', ...two, ...accept(ASTHMA)).err).toMatch(/--decide is about one person/);
  });

  test('of a question is refused, and the question asked', () => {
    const ran = check(
      'after-supper',
      '--patient',
      patient('S-107'),
      ...accept('unanswered/formula/medicines'),
    );
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('is a question, and wants an answer: Which medicines do they take?');
  });
});

describe('the page to be filed', () => {
  const page = (...args: string[]): string => check(...args, '--markdown').out;

  test('says whose house it is, for whom, when, of what in which version, and the verdict', () => {
    const out = page('stiff-joints', '--patient', patient('S-106'));
    expect(out).toMatch(
      /^# Saltmarsh House: check for S-106, 2026-05-02\n\nStiff joints decoction \(stiff-joints, version 4\)\n\n## Withhold: do not hand it over\n/,
    );
  });

  test('has every answer with its age, and says what was not asked', () => {
    const out = page('stiff-joints', '--patient', patient('S-106'));
    for (const line of [
      '**asked**: 2026-04-20, 12 days before this check',
      '**weight**: 82 kg',
      '**pregnant**: does not arise',
      '**medicines**: warfarin',
      '**allergies**: aspirin (as salicylates)',
      '**takes already**: none',
      '**avoids alcohol**: not asked',
    ])
      expect(out).toContain(`* ${line}\n`);
    expect(page('after-supper', '--patient', patient('S-107'))).toContain('* **medicines**: not asked\n');
  });

  test('leaves room to sign what is undecided, and room for an answer to what is asked', () => {
    const out = page('winter-chest', '--patient', patient('S-107'));
    const findings = out.split(/\n(?=\*\*(?:WITHHOLD|ASK|DECIDE|NOTE)\*\*)/).slice(1);
    expect(findings.length).toBeGreaterThan(3);
    for (const f of findings) {
      const [, level] = /^\*\*(\w+)\*\*/.exec(f) ?? [];
      const room =
        level === 'ASK'
          ? /^- Answer \.+ asked by \.+ on \.+$/m
          : /^- Accepted or not, because \.+ by \.+ on \.+$/m;
      if (level === 'NOTE') expect(f.split('\n## ')[0]).not.toContain('.....');
      else expect(f).toMatch(room);
    }
  });

  test('has the decision in the place of the room to sign', () => {
    const out = page('after-supper', '--patient', file(decision()));
    expect(out).toContain('- Accepted by AB on 2026-04-30: levels taken weekly\n');
    expect(out).not.toContain('Accepted or not');
  });

  test('has the sum behind a figure, the sources in full, the program and its files', () => {
    const out = page('stiff-joints', '--patient', patient('S-106'));
    expect(out).toContain('- total salicin, at the least: 1 % m/m of 6 g = 60 mg\n');
    expect(out).toMatch(/^- a Commission E \(Germany\), Meadowsweet/m);
    expect(out).toMatch(/^\* \*\*program\*\*: scruple \d+\.\d+\.\d+$/m);
    expect(out).toMatch(/^\* \*\*formulas\/stiff-joints\.yaml\*\*: SHA-256 [0-9a-f]{12}$/m);
    expect(out).toMatch(/^\* \*\*monographs\/willow-bark\.yaml\*\*: SHA-256 [0-9a-f]{12}$/m);
    expect(out.split('> For trained practitioners')).toHaveLength(2);
  });

  test('without a person is for nobody, and nobody signs', () => {
    const out = page('stiff-joints');
    expect(out).toMatch(/^# Saltmarsh House: check for nobody in particular/);
    expect(out).not.toContain('handed over by');
  });
});
