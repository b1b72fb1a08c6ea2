import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { run } from './scruple.ts';

/** Every session that README.md shows, run again: what it prints is what the program prints today. */
const README = readFileSync(fileURLToPath(new URL('../../README.md', import.meta.url)), 'utf8');

const SESSIONS = [...README.matchAll(/^```\n\$ scruple (.+)\n([\s\S]*?)\n```$/gm)].map(
  ([, command = '', shown = '']) => [command, shown] as const,
);

test('the README shows sessions', () => {
  expect(SESSIONS.length).toBeGreaterThan(8);
});

test.each(SESSIONS)('scruple %s', (command, shown) => {
  const args = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
  const { out, err } = run(args);
  expect((out || err).trimEnd()).toBe(shown);
});
