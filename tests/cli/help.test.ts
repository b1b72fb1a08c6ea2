import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { COMMANDS, GROUPS, nameOf } from '../../src/cli/command-lines.ts';
import { practiceFolder, removeFolders, run } from './scruple.ts';

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const EXAMPLES = COMMANDS.flatMap((c) => c.examples.map((example) => ({ name: nameOf(c), example })));

describe('help', () => {
  test('alone is short, and leads to the rest', () => {
    const { code, out } = run([], { cwd: folder });
    expect(code).toBe(0);
    expect(out.split('\n').length).toBeLessThan(12);
    expect(out).toContain('scruple --help');
  });

  test('lists every command under its part of the working day, in 80 columns', () => {
    const { out } = run(['--help'], { cwd: folder });
    const places = GROUPS.map((g) => out.indexOf(`\n${g}:`));
    expect(places.every((p) => p > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    for (const c of COMMANDS) expect(out).toMatch(new RegExp(`^  ${nameOf(c)}\\b`, 'm'));
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test.each(COMMANDS.map(nameOf))(
    '%s leads with its examples, its own options before those of every command',
    (name) => {
      const { code, out } = run([name, '--help'], { cwd: folder });
      expect(code).toBe(0);
      expect(out.startsWith('For example:\n  scruple ')).toBe(true);
      expect(out.indexOf('Output:')).toBeLessThan(out.indexOf('Where and when:'));
      for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    },
  );

  test.each(EXAMPLES)('scruple $example is a line that the program reads', ({ name, example }) => {
    expect(example.split(' ')[0]).toBe(name);
    const line = example.replace(/\\\n\s+/g, '').replace(/ < .*/, '');
    const args = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
    const { code, err } = run(args, { cwd: folder });
    expect(err).not.toMatch(
      /unknown option|unknown command|missing required|argument missing|too many arguments/,
    );
    expect(code).not.toBe(1);
  });
});
