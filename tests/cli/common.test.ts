import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  CAUTION,
  emptyFolder,
  envelopes,
  ON,
  PROGRAM,
  patient,
  practiceFolder,
  put,
  removeFolders,
  run,
} from './scruple.ts';

const COMMANDS: Readonly<Record<string, readonly string[]>> = {
  weigh: ['weigh', 'after-supper'],
  convert: ['convert', '1 imp pint', 'mL'],
  dose: ['dose', 'after-supper', '--patient', patient('S-103'), '--on', ON],
  check: ['check', 'after-supper', '--patient', patient('S-104'), '--on', ON],
  list: ['list'],
  'show a formula': ['show', 'after-supper'],
  'show a herb': ['show', 'willow bark'],
  validate: ['validate'],
};
const EACH = Object.entries(COMMANDS);

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

describe('every command', () => {
  test.each(EACH)('%s: --json is one parseable line and nothing else', (_, args) => {
    const ran = run([...args, '--json'], { cwd: folder });
    expect(ran.code).toBe(0);
    expect(ran.err).toBe('');
    expect(ran.out).toMatch(/^[^\n]+\n$/);
    expect(Object.keys(envelopes(ran)[0])).toEqual(['scruple', 'command', 'result', 'findings', 'problems']);
    expect(envelopes(ran)[0]).toMatchObject({ scruple: 1, command: args[0], problems: [] });
  });

  test.each(EACH)('%s: --markdown has a heading, and no escape', (_, args) => {
    const { code, out } = run([...args, '--markdown'], { cwd: folder });
    expect(code).toBe(0);
    expect(out).toMatch(/^# \S/);
    expect(out).not.toContain('\u001b');
  });

  test.each(EACH)('%s: --on that is no day is refused', (_, args) => {
    for (const on of ['2026-02-30', '']) {
      const ran = run([...args.filter((a) => a !== '--on' && a !== ON), '--on', on], { cwd: folder });
      expect(ran.code).toBe(2);
      expect(ran.out).toBe('');
      expect(ran.err).toMatch(/^command line: --on .*write year-month-day, such as 2026-05-02/);
    }
  });

  test.each(EACH)('%s: --help tells how it is used', (_, args) => {
    const { code, out, err } = run([args[0] ?? '', '--help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Usage: scruple /m);
    expect(out).toContain('For example:');
    expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  });

  test.each(EACH)('%s: a pipe gets no style, whatever the environment', (_, args) => {
    for (const env of [{ TERM: 'xterm-256color' }, { FORCE_COLOR: '1', CLICOLOR_FORCE: '1' }])
      expect(run(args, { cwd: folder, env }).out).not.toContain('\u001b');
  });

  test.each(EACH)('%s: named folder or standing in it, the answer is the same', (_, args) => {
    const here = run(args, { cwd: folder });
    const elsewhere = run([...args, '--folder', folder], { cwd: emptyFolder() });
    expect(elsewhere).toEqual(here);
    mkdirSync(join(folder, 'below', 'deep'), { recursive: true });
    expect(run(args, { cwd: join(folder, 'below', 'deep') })).toEqual(here);
  });

  test.each(EACH)('%s: --output writes the same to a file, and says nothing', (name, args) => {
    const file = join(folder, `${name}.txt`);
    const ran = run([...args, '--output', file], { cwd: folder });
    expect(ran).toEqual({ code: 0, out: '', err: '' });
    expect(readFileSync(file, 'utf8')).toBe(run(args, { cwd: folder }).out);
  });
});

describe('the command line', () => {
  test('asked for help shows what there is', () => {
    const { code, out } = run(['--help']);
    expect(code).toBe(0);
    for (const [, [command]] of EACH) expect(out).toContain(`  ${command} `);
  });

  test.each([
    [['wiegh', 'after-supper'], /unknown command 'wiegh'\n\(Did you mean weigh\?\)/],
    [['weigh', 'after-supper', '--mak', '100 g'], /unknown option '--mak'\n\(Did you mean --make\?\)/],
    [['check', 'after-supper', '--medecine', 'x'], /Did you mean --medicine\?/],
    [['weigh'], /missing required argument 'formula'/],
    [['convert', '1 g'], /missing required argument 'unit'/],
    [['weigh', 'a', 'b'], /too many arguments/],
    [['weigh', 'after-supper', '--make'], /argument missing/],
    [['weigh', 'after-supper', '--json', '--markdown'], /cannot be used with option '--markdown'/],
    [['list', 'formulae'], /"formulae" cannot be listed: write formulas or herbs/],
    [['show', 'wilow bark'], /did you mean willow bark/],
    [['show', 'fennel'], /did you mean bitter-fennel-fruit or sweet-fennel-fruit\?/],
    [['show', 'stif-joints'], /did you mean stiff-joints\?/],
    [['weigh', 'after-supper', '--folder', 'formulas'], /does not hold monographs\/ and formulas\//],
    [['help', 'nothing'], /Usage|unknown/],
  ])('%j is exit 2, in words', (args, says) => {
    const { code, out, err } = run(args, { cwd: folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(says);
    expect(err).not.toMatch(/\n\s+at |Error:/);
  });

  test('outside any practice it says how to get into one', () => {
    const { code, err } = run(['weigh', 'after-supper'], { cwd: emptyFolder() });
    expect(code).toBe(2);
    expect(err).toMatch(/no folder here or above holds monographs\/ and formulas\/.*--folder/);
  });

  test('with --json a fault is an envelope too, so that a script need not read two streams', () => {
    const ran = run(['weigh', 'stiff-joint', '--json'], { cwd: folder });
    expect(ran.code).toBe(2);
    expect(envelopes(ran)).toEqual([
      {
        scruple: 1,
        command: 'weigh',
        result: null,
        findings: [],
        problems: [{ code: 'not-found', file: 'formulas', message: expect.stringMatching(/stiff-joints/) }],
      },
    ]);
  });

  test('list shows one half of the folder where it is asked for', () => {
    const list = (...what: string[]) =>
      envelopes(run(['list', ...what, '--json'], { cwd: folder }))[0].result;
    expect(Object.keys(list())).toEqual(['formulas', 'herbs']);
    expect(Object.keys(list('herbs'))).toEqual(['herbs']);
    expect(list('formulas').formulas[0]).toMatchObject({ formula: 'after-supper', kind: 'infusion' });
  });

  test('show finds a herb by its Latin, pharmacopoeial or common name', () => {
    for (const name of ['Matricaria chamomilla', 'matricariae flos', 'Chamomile', 'chamomile-flower'])
      expect(envelopes(run(['show', name, '--json'], { cwd: folder }))[0].result.id, name).toBe(
        'chamomile-flower',
      );
  });
});

describe('--output', () => {
  test('keeps a file that is there, unless forced, and leaves nothing half written', () => {
    const dir = emptyFolder();
    put(dir, 'tea.txt', 'mine');
    const args = ['weigh', 'after-supper', '--folder', folder, '--output', 'tea.txt'];
    const kept = run(args, { cwd: dir });
    expect(kept.code).toBe(2);
    expect(kept.err).toBe(
      'output: tea.txt is there already: choose another name, or add --force to overwrite it\n',
    );
    expect(readFileSync(join(dir, 'tea.txt'), 'utf8')).toBe('mine');
    expect(run([...args, '--force'], { cwd: dir }).code).toBe(0);
    expect(readFileSync(join(dir, 'tea.txt'), 'utf8')).toContain('After-supper tea');
    expect(readdirSync(dir)).toEqual(['tea.txt']);
  });

  test('leaves the file as it was where the input is broken, even when forced', () => {
    const dir = practiceFolder();
    put(dir, 'tea.txt', 'mine');
    put(dir, 'formulas/after-supper.yaml', 'formula: after-supper\ntitle: [\n');
    for (const command of ['weigh', 'dose', 'check']) {
      const ran = run([command, 'after-supper', '--output', 'tea.txt', '--force'], { cwd: dir });
      expect(ran.code).toBe(2);
      expect(readFileSync(join(dir, 'tea.txt'), 'utf8')).toBe('mine');
    }
    expect(run(['weigh', 'after-supper', '--output', 'new.txt'], { cwd: dir }).code).toBe(2);
    expect(existsSync(join(dir, 'new.txt'))).toBe(false);
  });

  test('into a folder that is not there says so', () => {
    const ran = run(['list', '--output', 'none/list.txt'], { cwd: folder });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/none\/list\.txt.*no such folder/);
  });

  test('leaves the verdict in the exit status', () => {
    const args = ['check', 'stiff-joints', '--patient', patient('S-106'), '--on', ON];
    expect(run([...args, '--output', join(emptyFolder(), 'c.txt')], { cwd: folder }).code).toBe(5);
  });
});

describe('--working', () => {
  test.each([EACH[0], EACH[2], EACH[3]] as typeof EACH)(
    '%s: the caution and the next step stay last',
    (_, args) => {
      const { out } = run([...args, '--working'], { cwd: folder });
      expect(out).toMatch(/^Working$/m);
      expect(out.indexOf('Working')).toBeLessThan(out.indexOf(CAUTION));
      expect(out.split(CAUTION)).toHaveLength(2);
    },
  );

  test('is a list of its own in JSON', () => {
    const [{ result }] = envelopes(run(['weigh', 'after-supper', '--json', '--working'], { cwd: folder }));
    expect(result.working[0]).toMatchObject({ number: expect.anything(), says: expect.any(String) });
    expect(result).toHaveProperty('lines');
  });
});

describe('standard input', () => {
  const args = ['check', 'after-supper', '--patient', '-', '--on', ON];

  test('is a patient where - is written', () => {
    const text = readFileSync(patient('S-107'), 'utf8');
    const piped = run(args, { cwd: folder, input: text });
    expect(piped.code).toBe(4);
    expect(piped.out).toBe(
      run(['check', 'after-supper', '--patient', patient('S-107'), '--on', ON], { cwd: folder }).out,
    );
  });

  test.each([
    ['', /^standard input:1:1: the file is empty/],
    [
      'patient: P-1\nasked: 2026-05-02\nweigth: 60 kg\n',
      /^standard input:3:1: unknown key "weigth": did you mean weight\?/,
    ],
    ['patient: [', /^standard input:1:/],
  ])('%j is broken, and says where', (input, says) => {
    const ran = run(args, { cwd: folder, input });
    expect({ code: ran.code, out: ran.out }).toEqual({ code: 2, out: '' });
    expect(ran.err).toMatch(says);
  });
});

test('a reader that goes away after one line is no fault', () => {
  const { code, out, err } = (() => {
    const ran = spawnSync(
      'sh',
      ['-c', `"$0" "$1" show "willow bark" --working | head -1; echo "done" >&2`, process.execPath, PROGRAM],
      { cwd: folder, encoding: 'utf8' },
    );
    return { code: ran.status, out: ran.stdout, err: ran.stderr };
  })();
  expect(code).toBe(0);
  expect(out).toBe('willow bark\n');
  expect(err).toBe('done\n');
});

describe.skipIf(spawnSync('script', ['-qec', 'true', '/dev/null']).status !== 0)('on a terminal', () => {
  /** Runs the program with a terminal for its standard output, as util-linux `script` gives it. */
  const onTerminal = (line: string, env: Readonly<Record<string, string>> = {}): string => {
    const { NO_COLOR: _, FORCE_COLOR: __, ...rest } = process.env;
    return spawnSync('script', ['-qec', `"${process.execPath}" "${PROGRAM}" ${line}`, '/dev/null'], {
      cwd: folder,
      env: { ...rest, TERM: 'xterm', ...env },
      encoding: 'utf8',
      input: '',
    }).stdout;
  };
  const line = 'check stiff-joints --medicine warfarin';

  test('print is bold and dim, and the words are the same without it', () => {
    const styled = onTerminal(line);
    expect(new Set(styled.match(/\u001b\[\d+m/g))).toEqual(new Set(['\u001b[1m', '\u001b[2m', '\u001b[22m']));
    const plain = styled.replace(/\u001b\[\d+m/g, '').replace(/\r\n/g, '\n');
    expect(plain).toBe(onTerminal(`${line} --no-color`).replace(/\r\n/g, '\n'));
  });

  test('--no-color, NO_COLOR and a dumb terminal are obeyed', () => {
    expect(onTerminal(`${line} --no-color`)).not.toContain('\u001b');
    expect(onTerminal(line, { NO_COLOR: '1' })).not.toContain('\u001b');
    expect(onTerminal(line, { TERM: 'dumb' })).not.toContain('\u001b');
    expect(onTerminal(`${line} --json`)).not.toContain('\u001b');
    expect(onTerminal(`${line} --markdown`)).not.toContain('\u001b');
  });
});
