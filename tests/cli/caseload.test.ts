import { spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { people } from '../bench/people.js';
import {
  CAUTION,
  CODES,
  emptyFolder,
  envelopes,
  FORMULAS,
  json,
  ON,
  PATIENTS,
  PROGRAM,
  patient,
  practiceFolder,
  put,
  removeFolders,
  run,
} from './scruple.ts';

/** Many people against many formulas, by the program itself. */

afterAll(removeFolders);

const PEOPLE = [...people(60, 7)].join('\n');

const caseload = (formulas: readonly string[], input: string, ...more: string[]) =>
  run(['caseload', ...formulas, '--on', ON, ...more], { input });

/** The same input in pieces, with a moment between them. */
function inPieces(
  args: readonly string[],
  input: string,
  size: number,
): Promise<{ out: string; code: number | null }> {
  return new Promise((done) => {
    const p = spawn(process.execPath, [PROGRAM, ...args]);
    let out = '';
    p.stdout.setEncoding('utf8').on('data', (d) => {
      out += d;
    });
    p.on('close', (code) => done({ out, code }));
    const bytes = Buffer.from(input);
    let at = 0;
    const next = (): void => {
      if (at >= bytes.length) {
        p.stdin.end();
        return;
      }
      p.stdin.write(bytes.subarray(at, at + size), () => setImmediate(next));
      at += size;
    };
    next();
  });
}

describe('caseload', () => {
  test('says of each person and each formula what the check says, in the order of the rows', () => {
    const lines = envelopes(run(['caseload', ...FORMULAS, '--patients', PATIENTS, '--on', ON]));
    expect(lines).toHaveLength(CODES.length * FORMULAS.length);
    for (const [i, code] of CODES.entries()) {
      const checked = ['stiff-joints', 'hushed-hours'].map((f) =>
        json(['check', f, '--patient', patient(code), '--on', ON]),
      );
      for (const c of checked) {
        const at = i * FORMULAS.length + FORMULAS.indexOf(c.result.formulas[0]);
        const { row, ...result } = lines[at].result;
        expect(row).toBe(String(i + 1));
        expect(result).toEqual(c.result);
        expect(lines[at].findings).toEqual(c.findings);
      }
    }
  }, 60_000);

  test('a folder of files and the same people as JSON lines come to the same', () => {
    const rows = CODES.map((code) =>
      JSON.stringify(parse(readFileSync(patient(code), 'utf8'), { schema: 'failsafe' })),
    );
    const byFolder = run(['caseload', 'after-supper', '--patients', PATIENTS, '--on', ON]);
    const byStream = caseload(['after-supper'], `${rows.join('\n')}\n`);
    expect(byStream.out).toBe(byFolder.out);
    expect(byStream.code).toBe(byFolder.code);
  });

  test('figures in JSON keep their text, and YAML words in quotes mean what they mean in a file', () => {
    const [line] = envelopes(
      caseload(
        ['after-supper'],
        '{"patient": 17, "asked": "2026-05-02", "age": "34 years", "weight": "68.50 kg", "sex": "female", "pregnant": false, "surgery": null}\n',
      ),
    );
    expect(line.result.patient).toBe('17');
    expect(line.findings.map((f: { id: string }) => f.id)).not.toContain('unanswered/formula/surgery');
  });

  test('comes to the same bytes whatever the pieces it is sent in', async () => {
    const whole = caseload(['after-supper'], PEOPLE);
    expect(envelopes(whole)).toHaveLength(60);
    const args = ['caseload', 'after-supper', '--on', ON];
    for (const size of [1, 7, 4096]) {
      const pieces = await inPieces(
        args,
        PEOPLE.replace(/hay fever/, 'h\u00e4y fever').replace('h\u00e4y', 'hay'),
        size,
      );
      expect(pieces.out === whole.out, `pieces of ${size}`).toBe(true);
      expect(pieces.code).toBe(whole.code);
    }
  }, 60_000);

  test('tells a wrong row by its number and its place, judges the rest, and ends with 2', () => {
    const good = '{"patient": "A", "asked": "2026-05-02", "age": "34 years"}';
    const rows = [
      good,
      '',
      '{"patient": "B"',
      '{"patient": "C", "asked": "2026-05-02", "age": "34 yeers"}',
      '{"patient": "D", "asked": "2026-05-02", "agee": "34 years"}',
      '{"patient": "E", "asked": "2030-05-02", "born": "2029-01-01"}',
      '{"patient": "F", "asked": "2026-05-02", "formulas": ["no-such"]}',
      '{"patient": "G", "patient": "H", "asked": "2026-05-02"}',
      '[1]',
      `{"patient": "${'x'.repeat(1_100_000)}"}`,
      good,
    ];
    const ran = caseload(['after-supper'], rows.join('\r\n'));
    expect(ran.code).toBe(2);
    const lines = envelopes(ran);
    expect(lines.map((l) => l.result.row)).toEqual(['1', '3', '4', '5', '6', '7', '8', '9', '10', '11']);
    expect(lines.filter((l) => l.problems.length === 0).map((l) => l.result.row)).toEqual(['1', '11']);
    expect(ran.err).toContain('standard input:3:16: "}" or a comma belongs here');
    expect(ran.err).toMatch(/standard input:4:48: "34 yeers" is not an age/);
    expect(ran.err).toMatch(/standard input:5:49: .*agee/);
    expect(ran.err).toMatch(/row 6: born 2029-01-01 is after the day reckoned from/);
    expect(ran.err).toMatch(/row 7: there is no formula "no-such"/);
    expect(ran.err).toContain('standard input:8:18: "patient" stands twice: keep one');
    expect(ran.err).toMatch(/standard input:10:1: this row is longer than 1 MiB/);
    expect(ran.err).toMatch(/wrong, and not judged +8/);
  });

  test('a file of the folder that is wrong is told with its place and does not stop the rest', () => {
    const folder = emptyFolder('people');
    copyFileSync(patient('S-103'), join(folder, 'A.yaml'));
    put(folder, 'B.yaml', 'patient: B\nasked: yesterday\n');
    put(folder, 'TEMPLATE.yaml', 'patient: TEMPLATE\nasked: 2000-01-01\n');
    copyFileSync(patient('S-104'), join(folder, 'C.yaml'));
    const ran = run(['caseload', 'after-supper', '--patients', folder, '--on', ON]);
    expect(ran.code).toBe(2);
    expect(envelopes(ran).map((l) => l.result.patient)).toEqual(['S-103', undefined, 'S-104']);
    expect(ran.err).toMatch(/B\.yaml:2:1: "yesterday" is not a date/);
  });

  test('a row may have formulas of its own, and --together judges them as one person takes them', () => {
    const row =
      '{"patient": "A", "asked": "2026-05-02", "age": "34 years", "formulas": ["still-night", "hushed-hours"]}';
    const apart = envelopes(caseload(['after-supper'], row));
    expect(apart.map((l) => l.result.formulas)).toEqual([['still-night'], ['hushed-hours']]);
    const [together, ...more] = envelopes(caseload([], row, '--together'));
    expect(more).toEqual([]);
    expect(together.result.formulas).toEqual(['still-night', 'hushed-hours']);
    expect(together.findings.map((f: { rule: string }) => f.rule)).toContain('same-herb');
  });

  test('sums up on standard error: by level, by herb, with the caution once', () => {
    const ran = caseload(['after-supper'], PEOPLE);
    const counted: Record<string, number> = {};
    for (const { result } of envelopes(ran)) counted[result.verdict] = (counted[result.verdict] ?? 0) + 1;
    for (const [verdict, n] of Object.entries(counted))
      expect(ran.err).toMatch(new RegExp(`${verdict} +${n}$`, 'm'));
    expect(ran.err).toMatch(/chamomile-flower +\d/);
    expect(ran.err.split(CAUTION)).toHaveLength(2);
    for (const line of ran.err.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('ends quietly when nobody reads any longer', async () => {
    const p = spawn(process.execPath, [PROGRAM, 'caseload', 'after-supper', '--on', ON]);
    let err = '';
    p.stderr.on('data', (d) => {
      err += d;
    });
    p.stdin.on('error', () => {});
    p.stdin.end([...people(3000, 3)].join('\n'));
    await new Promise((done) => p.stdout.once('data', done));
    p.stdout.destroy();
    const code = await new Promise((done) => p.on('close', done));
    expect(err).not.toMatch(/EPIPE|at .*:\d+/);
    expect(code).not.toBe(1);
  }, 60_000);

  test('--output appears whole or not at all, and is not overwritten', () => {
    const file = join(emptyFolder(), 'results.ndjson');
    const ran = caseload(['after-supper'], PEOPLE, '--output', file);
    expect(ran.out).toBe('');
    expect(readFileSync(file, 'utf8')).toBe(caseload(['after-supper'], PEOPLE).out);
    expect(caseload(['after-supper'], PEOPLE, '--output', file)).toMatchObject({ code: 2, out: '' });
  });

  test('what is wrong with the library or the command line stops everything before a row is judged', () => {
    expect(caseload(['no-such'], PEOPLE)).toMatchObject({ code: 2, out: '' });
    expect(caseload(['after-supper'], PEOPLE, '--markdown').err).toContain('leave out --markdown');
    expect(run(['caseload', 'after-supper', '--patients', 'nowhere']).err).toContain(
      'there is no such folder',
    );
    const folder = practiceFolder();
    mkdirSync(join(folder, 'empty'));
    expect(
      run(['caseload', 'after-supper', '--patients', join(folder, 'empty')], { cwd: folder }).err,
    ).toContain('no patient file');
    const file = join(folder, 'monographs', 'chamomile-flower.yaml');
    const spoiled = readFileSync(file, 'utf8').replace(/allergy: \[?[\w-]+/, 'allergy: [no-such-thing');
    put(
      folder,
      'monographs/chamomile-flower.yaml',
      spoiled.includes('[no-such-thing]') ? spoiled : spoiled.replace('[no-such-thing', 'no-such-thing'),
    );
    const ran = run(['caseload', 'after-supper', '--on', ON], { cwd: folder, input: PEOPLE });
    expect(ran).toMatchObject({ code: 2, out: '' });
    expect(ran.err).toMatch(/chamomile-flower\.yaml:\d+:\d+: .*no-such-thing/);
  });
});
