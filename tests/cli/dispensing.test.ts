import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jsonSchema } from '../../src/folder/json-schema.ts';
import { CAUTION, json, PROGRAM, practiceFolder, put, type Ran, removeFolders, run } from './scruple.ts';

/** Booking in, making, handing over, and finding again, as a practice does it; the program itself is run. */

afterAll(removeFolders);

const ON = ['--on', '2026-05-02'];
const KR = ['--initials', 'KR'];

const PERSON = `patient: P-017
asked: 2026-05-02
born: 1980-02-03
sex: male
conditions: []
medicines: []
allergies: []
taking: []
surgery: null
drives: yes
avoids_alcohol: no
`;

let folder = '';
const scruple = (...args: string[]): Ran => run(args, { cwd: folder });
const scrupleJson = (...args: string[]) => json(args, { cwd: folder });
const records = (): string[] => readdirSync(join(folder, 'records')).sort();

function newShelf(): void {
  folder = practiceFolder('shelf');
  put(folder, 'patients/P-017.yaml', PERSON);
}

function bookIn(herb: string, amount: string, ...more: string[]): string {
  return scrupleJson(
    'lots',
    'book-in',
    herb,
    '--amount',
    amount,
    '--bought',
    'Fen Herbs',
    ...KR,
    ...ON,
    ...more,
  ).result.record;
}

const tincture = (herb: string, amount: string, ratio: string, spirit: string, ...more: string[]): string =>
  bookIn(herb, amount, '--form', 'tincture', '--ratio', ratio, '--spirit', spirit, ...more);

const TO = ['--patient', 'patients/P-017.yaml', ...KR, ...ON];

describe.sequential('a bottle from the shelf to a person', () => {
  beforeAll(newShelf);

  test('what was bought and gathered is booked in under any of its names', () => {
    expect(
      tincture('valerian', '500 mL', '1:4 w/v', '60 % v/v', '--price', '40 GBP', '--expires', '2027-01-01'),
    ).toBe('000001');
    expect(tincture('lemon-balm-leaf', '300 mL', '1:5 w/v', '45 % v/v', '--expires', '2026-12-01')).toBe(
      '000002',
    );
    const ran = scruple(
      'lots',
      'book-in',
      'nettle-leaf',
      '--amount',
      '180 g',
      '--gathered',
      'the lower meadow',
      '--leave',
      'the abbey',
      '--identified-by',
      'KR',
      '--fresh',
      '800 g',
      ...KR,
      ...ON,
    );
    expect(ran.err).toBe('');
    expect(ran.out.replace(/\s+/g, ' ')).toContain(
      'gathered at the lower meadow, with leave of the abbey, identified by KR, 800 g fresh',
    );
  });

  test('the list shows what is left, what expires first standing first', () => {
    const { out } = scruple('lots', ...ON);
    expect(out.indexOf('000002')).toBeLessThan(out.indexOf('000001'));
    expect(out).toContain('500 mL');
    expect(out.match(/Caution:/g)).toHaveLength(1);
  });

  test('a batch is weighed out of the lots, with their own ratio and strength', () => {
    const { result } = scrupleJson('weigh', 'hushed-hours', '--batch', '--make', '140 mL', ...KR, ...ON);
    expect(result.record).toBe('000004');
    // Half of 140 mL is valerian, at 60 % of the lot and not at the 70 % of the formula:
    // (70 x 60 + 53 x 45) / 140 = 47.04 % v/v.
    expect(result.strength).toEqual({ value: expect.stringMatching(/^47\.03/), unit: '%{v/v}' });
    expect(result.drawn[0]).toEqual({
      of: 'valerian-root',
      amount: { value: '70', unit: 'mL' },
      draws: [{ lot: '000001', amount: { value: '70', unit: 'mL' } }],
    });
    // 40 GBP x 70 / 500.
    expect(result.cost).toEqual(['5.60 GBP']);
    expect(result.discard_after).toBe('2026-12-01');
    const left = scrupleJson('lots', 'valerian-root', ...ON).result.lots[0].left;
    expect(left).toEqual({ value: '430', unit: 'mL' });
  });

  test('handing it over checks it, says what lot it is of and when the person comes again', () => {
    const ran = scruple('dispense', 'hushed-hours', '--batch', '4', ...TO);
    expect(ran.err).toBe('');
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('Record 000005: Hushed hours mixture for P-017');
    expect(ran.out).toMatch(/handed over +70 mL/);
    expect(ran.out).toMatch(/next review +2026-05-16/);
    expect(ran.out).toContain(CAUTION);
  });

  test('the label says what the record holds, and what the check found', () => {
    const { out } = scruple('label', '5');
    expect(out).toContain('Record 000005, batch 000004');
    // The bottle is as strong as the batch that it was filled from, and holds its share of each line: 53 mL x 70 / 140.
    expect(out).toContain('Strength: 47.04 % v/v ethanol');
    expect(out).toContain('26.5 mL');
    expect(out).toContain('Discard after\n1 December 2026');
    expect(out).toContain('valerian root may impair driving'.replace('v', 'V'));
    for (const line of out.trimEnd().split('\n')) expect(line.length).toBeLessThanOrEqual(40);
    expect(scruple('label', '5', '--lines', '10').err).toMatch(
      /the label needs \d+ lines of 40 columns and has 10/,
    );
    expect(scruple('label', '5', '--lines', '10').code).toBe(2);
  });

  test('the same again with changes is checked anew, and drawn of the shelf', () => {
    const { result } = scrupleJson(
      'dispense',
      '--like',
      '5',
      '--change',
      'valerian-root -10 mL, lemon-balm-leaf +10 mL',
      ...TO,
    );
    expect(result.like).toBe('000005');
    expect(
      result.drawn.map((d: { of: string; amount: { value: string } }) => [d.of, d.amount.value]),
    ).toEqual([
      ['valerian-root', '25'],
      ['lemon-balm-leaf', '36'],
      ['syrup', '9'],
    ]);
    expect(readFileSync(join(folder, 'records', '000006.yaml'), 'utf8')).toContain('like: "000005"');
  });

  test('a lot leads to each person, and a record back to each lot', () => {
    expect(scrupleJson('trace', '1').result.patients).toEqual(['P-017']);
    const back = scrupleJson('trace', '5').result.back[0];
    expect(back.record).toBe('000004');
    expect(back.further.map((l: { record: string }) => l.record)).toEqual(['000001', '000002']);
  });

  test('a reaction is recorded, and led to the reporting scheme', () => {
    const ran = scruple(
      'dispense',
      '--reaction',
      '5',
      '--says',
      'a rash on both arms',
      '--serious',
      'no',
      ...KR,
      '--on',
      '2026-05-05',
    );
    expect(ran.err).toBe('');
    expect(ran.out.replace(/\s+/g, ' ')).toContain(
      'reporting scheme for suspected adverse reactions of your country',
    );
    expect(scruple('trace', '1').out).toContain('suspected reaction, 2026-05-05: a rash on both arms');
  });

  test('what was wrong is put right by a further record, and the first stays as it was', () => {
    const before = readFileSync(join(folder, 'records', '000005.yaml'), 'utf8');
    expect(
      scruple(
        'dispense',
        'hushed-hours',
        '--batch',
        '4',
        '--make',
        '60 mL',
        '--corrects',
        '5',
        '--why',
        'the smaller bottle',
        ...TO,
      ).err,
    ).toBe('');
    expect(readFileSync(join(folder, 'records', '000005.yaml'), 'utf8')).toBe(before);
    expect(scrupleJson('trace', '4').result.left).toEqual({ value: '80', unit: 'mL' });
    expect(scruple('dispense', '--cancel', '5', '--why', 'again', ...KR).err).toMatch(
      /000005 was cancelled already/,
    );
    expect(scruple('lots', 'cancel', '4', '--why', 'a slip', ...KR).err).toMatch(
      /000004 is used by record 000008/,
    );
    expect(scruple('dispense', '--cancel', '8', '--why', 'never fetched', ...KR).code).toBe(0);
    expect(scrupleJson('trace', '4').result.left).toEqual({ value: '140', unit: 'mL' });
  });

  test('a lot in quarantine is drawn no more, until it is released', () => {
    expect(scruple('lots', 'adjust', '1', '--reason', 'quarantine', ...KR).out).toContain(
      'it is in quarantine',
    );
    const refused = scruple('dispense', 'hushed-hours', ...TO);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/valerian-root \(tincture\): 35 mL wanted, .*lot 000001 is in quarantine/);
    expect(scruple('lots', 'adjust', '1', '--reason', 'released', ...KR).code).toBe(0);
    expect(scruple('dispense', 'hushed-hours', ...TO).code).toBe(0);
  });

  test('every record and every answer holds against the JSON Schema', async () => {
    const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
    const isRecord = ajv.compile(await jsonSchema('record'));
    const isLot = ajv.compile(await jsonSchema('lot'));
    const kinds = new Set<string>();
    for (const name of records()) {
      const kept = parse(readFileSync(join(folder, 'records', name), 'utf8'));
      kinds.add(kept.kind);
      expect(isRecord(kept), `${name} ${JSON.stringify(isRecord.errors)}`).toBe(true);
      expect(isLot(kept)).toBe(kept.kind === 'lot');
    }
    expect([...kinds].sort()).toEqual(['adjustment', 'batch', 'correction', 'dispensing', 'lot', 'reaction']);
    const isOutput = ajv.compile(await jsonSchema('output'));
    for (const args of [['lots'], ['trace', '1'], ['trace', '5'], ['trace', '--changed'], ['label', '5']]) {
      const answer = scrupleJson(...args, ...(args[0] === 'trace' ? [] : ON));
      expect(isOutput(answer), `${args} ${JSON.stringify(isOutput.errors)}`).toBe(true);
    }
  });

  test('no file bears a name that tells of a person, and nothing lies beside the records', () => {
    expect(records().every((n) => /^\d{6}\.yaml$/.test(n))).toBe(true);
    expect(readdirSync(folder).sort()).toEqual(
      [
        'bench.test.ts',
        'bench.ts',
        'cases',
        'formulas',
        'judge.ts',
        'monographs',
        'patients',
        'practice.yaml',
        'records',
        'saltmarsh.test.ts',
      ].filter((n) => readdirSync(folder).includes(n)),
    );
  });
});

describe('what is not handed over', () => {
  beforeAll(newShelf);

  test('a check that leaves something open stands in the way, with its own exit status, and nothing is recorded', () => {
    const ran = scruple(
      'dispense',
      'after-supper',
      '--without-lots',
      '--discard-after',
      '2026-12-01',
      '--patient',
      'patients/S-101.yaml',
      ...KR,
      ...ON,
    );
    expect([3, 4, 5]).toContain(ran.code);
    expect(ran.code).toBe(scruple('check', 'after-supper', '--patient', 'patients/S-101.yaml', ...ON).code);
    expect(ran.out).toContain('Not handed over');
    expect(ran.out).toContain('Nothing was recorded');
    expect(readdirSync(folder)).not.toContain('records');
  });

  test('what is decided, with a reason, is handed over, and the decision is in the record', () => {
    const args = [
      'dispense',
      'hushed-hours',
      '--without-lots',
      '--discard-after',
      '2026-12-01',
      '--patient',
      'patients/P-018.yaml',
      ...KR,
      ...ON,
    ];
    put(
      folder,
      'patients/P-018.yaml',
      `${PERSON.replace('P-017', 'P-018').replace('medicines: []', 'medicines: [diazepam]')}weight: 70 kg\n`,
    );
    const open = run([...args, '--json'], { cwd: folder });
    const { findings } = JSON.parse(open.out);
    const toDecide = findings.filter((f: { level: string }) => f.level !== 'note');
    expect(toDecide.length).toBeGreaterThan(0);
    expect(toDecide.every((f: { level: string }) => f.level !== 'ask')).toBe(true);
    const decided = run(
      [
        ...args,
        ...toDecide.flatMap((f: { id: string }) => [
          '--decide',
          f.id,
          '--because',
          'agreed with the doctor',
          '--by',
          'KR',
        ]),
      ],
      { cwd: folder },
    );
    expect(decided.err).toBe('');
    expect(decided.code).toBe(0);
    expect(readFileSync(join(folder, 'records', '000001.yaml'), 'utf8')).toContain(
      'because: agreed with the doctor',
    );
  });

  test('herbs that were not booked in are refused, each with what is wanted', () => {
    const ran = scruple('dispense', 'hushed-hours', ...TO);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('valerian-root (tincture): 35 mL wanted, and no lot of it was booked in');
    expect(ran.err).toContain('scruple lots book-in');
  });

  test('what must be discarded before it is used up is refused', () => {
    const ran = scruple('dispense', 'hushed-hours', '--without-lots', '--discard-after', '2026-05-05', ...TO);
    expect(ran.err).toMatch(/it lasts until 2026-05-15, and is to be discarded after 2026-05-05/);
  });

  test('without initials, a person or a date nothing is written, and each is asked for', () => {
    expect(scruple('dispense', 'hushed-hours', '--patient', 'patients/P-017.yaml', ...ON).err).toContain(
      'add --initials',
    );
    expect(scruple('dispense', 'hushed-hours', ...KR, ...ON).err).toContain('--patient FILE');
    expect(scruple('dispense', 'after-supper', '--without-lots', ...TO).err).toContain('--discard-after');
    expect(scruple('weigh', 'hushed-hours', ...KR).err).toContain('add --batch');
  });
});

describe('trace --changed', () => {
  beforeAll(() => {
    newShelf();
    const made = ['--without-lots', '--discard-after', '2026-12-01', ...TO];
    for (const formula of ['hushed-hours', 'after-supper', 'bitter-end-drops']) {
      const ran = scruple('dispense', formula, ...made);
      if (ran.code !== 0) throw new Error(`${formula}: ${ran.err}${ran.out}`);
    }
  });

  const changed = (): [string, string][] =>
    scrupleJson('trace', '--changed').result.changed.map((c: { record: string; what: string[] }) => [
      c.record,
      c.what.join('; '),
    ]);
  const edit = (file: string, from: string | RegExp, to: string): (() => void) => {
    const path = join(folder, file);
    const before = readFileSync(path, 'utf8');
    if (before.replace(from, to) === before) throw new Error(`${file} holds no ${from}`);
    writeFileSync(path, before.replace(from, to));
    return () => writeFileSync(path, before);
  };

  test('names none as long as nothing is changed', () => {
    expect(changed()).toEqual([]);
    expect(scruple('trace', '--changed').out).toContain('Nothing has changed since');
  });

  test('names exactly whom a changed limit of a monograph touches', () => {
    const back = edit('monographs/valerian-root.yaml', /daily: [^,}\n]+/, 'daily: up to 9 g');
    expect(changed()).toEqual([['000001', 'the monograph valerian-root']]);
    back();
    const both = edit('monographs/lemon-balm-leaf.yaml', /single: [^,}\n]+/, 'single: 1-2 g');
    expect(changed().map(([n]) => n)).toEqual(['000001', '000003']);
    both();
    expect(changed()).toEqual([]);
  });

  test('names exactly whom a changed limit of intake touches', () => {
    const back = edit('monographs/reference/intake-limits.yaml', 'daily: 0.05 mg', 'daily: 0.04 mg');
    expect(changed()).toEqual([['000002', 'the limits of sweet-fennel-fruit']]);
    back();
  });

  test('names none for a comma in a comment, another order of keys, or a line broken elsewhere', () => {
    const backs = [
      edit('monographs/valerian-root.yaml', /^id: /, '# One, two.\nid: '),
      edit('formulas/hushed-hours.yaml', 'use: sleep\n', ''),
    ];
    writeFileSync(
      join(folder, 'formulas/hushed-hours.yaml'),
      `# A comment, with a comma.\n${readFileSync(join(folder, 'formulas/hushed-hours.yaml'), 'utf8')}use:\n  sleep\n`,
    );
    expect(changed()).toEqual([]);
    for (const back of backs) back();
  });

  test('names a formula that was changed, and a monograph that is gone', () => {
    const back = edit('formulas/after-supper.yaml', 'parts: 3', 'parts: 4');
    expect(changed()).toEqual([['000002', 'the formula after-supper']]);
    back();
  });
});

describe('fifty at once', () => {
  test('lose nothing, share no number, and take no more than there is', async () => {
    newShelf();
    tincture('valerian', '500 mL', '1:5 w/v', '70 % v/v');
    tincture('lemon-balm-leaf', '500 mL', '1:5 w/v', '45 % v/v');
    expect(
      scruple(
        'weigh',
        'hushed-hours',
        '--batch',
        '--make',
        '300 mL',
        '--discard-after',
        '2026-12-01',
        ...KR,
        ...ON,
      ).err,
    ).toBe('');
    const one = () =>
      new Promise<{ code: number | null; err: string }>((done) => {
        const p = spawn(
          process.execPath,
          [PROGRAM, 'dispense', 'hushed-hours', '--batch', '3', '--make', '10 mL', ...TO],
          { cwd: folder },
        );
        let err = '';
        p.stderr.on('data', (d) => {
          err += d;
        });
        p.on('close', (code) => done({ code, err }));
      });
    const ran = await Promise.all(Array.from({ length: 50 }, one));
    expect(ran.filter((r) => r.code === 0)).toHaveLength(30);
    for (const r of ran.filter((x) => x.code !== 0)) expect(r.err).toMatch(/0 mL of batch 000003 is left/);
    expect(records()).toEqual(Array.from({ length: 33 }, (_, i) => `${String(i + 1).padStart(6, '0')}.yaml`));
    expect(scrupleJson('trace', '3').result.left).toEqual({ value: '0', unit: 'mL' });
  }, 120_000);
});

describe('a program that is killed', () => {
  test('at whatever moment leaves whole records and no gap, and the next goes on', async () => {
    newShelf();
    const book = ['lots', 'book-in', 'honey', '--amount', '1 kg', '--bought', 'Fen Herbs', ...KR, ...ON];
    let done = 0;
    for (let ms = 40; ms <= 240; ms += 10) {
      const p = spawn(process.execPath, [PROGRAM, ...book], { cwd: folder, stdio: 'ignore' });
      const killed = setTimeout(() => p.kill('SIGKILL'), ms);
      const code = await new Promise((end) => p.on('close', end));
      clearTimeout(killed);
      if (code === 0) done += 1;
    }
    expect(scruple(...book).code).toBe(0);
    const names = records().filter((n) => n.endsWith('.yaml'));
    // Some were killed after their record had its number and before they could say so.
    expect(names.length).toBeGreaterThanOrEqual(done + 1);
    expect(names).toEqual(names.map((_, i) => `${String(i + 1).padStart(6, '0')}.yaml`));
    expect(scruple('validate').code).toBe(0);
    expect(scrupleJson('lots', 'honey').result.lots).toHaveLength(names.length);
  }, 60_000);
});

describe('names that are not plain', () => {
  test('break no table, open no tag and reach no terminal as what they are', () => {
    newShelf();
    const odd = 'A | B <b>bold</b> [x](http://x.test) `c` \u001b[31mred \u202eright \u{1f33f} =1+1';
    const made = scruple(
      'lots',
      'book-in',
      'thyme-herb',
      '--amount',
      '1 kg',
      '--bought',
      odd,
      '--supplier-lot',
      '| 7 |',
      '--note',
      odd,
      ...KR,
      ...ON,
    );
    expect(made.err).toBe('');
    expect(made.out).not.toMatch(/[\u001b\u202e]/);
    put(folder, 'patients/P-019.yaml', PERSON.replace('P-017', JSON.stringify(odd.slice(0, 40))));
    const given = scruple(
      'dispense',
      'after-supper',
      '--without-lots',
      '--discard-after',
      '2026-12-01',
      '--patient',
      'patients/P-019.yaml',
      '--note',
      odd,
      ...KR,
      ...ON,
    );
    expect(given.err).toBe('');
    for (const args of [['lots'], ['trace', '1'], ['trace', '2'], ['label', '2'], ['trace', '--changed']]) {
      const { out, code } = scruple(...args, '--markdown');
      expect(code, args.join(' ')).toBe(0);
      expect(out).not.toMatch(/[\u001b\u202e]/);
      const tree = unified().use(remarkParse).use(remarkGfm).parse(out);
      const text = JSON.stringify(tree);
      for (const kind of ['html', 'link', 'inlineCode', 'emphasis'])
        expect(text, args.join(' ')).not.toContain(`"type":"${kind}"`);
      for (const table of tree.children.filter((n) => n.type === 'table'))
        expect(new Set(table.children.map((row) => row.children.length)).size).toBe(1);
    }
  });
});
