import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { demoPractice, sessionsIn } from '../../build/readme-sessions.js';

/** Every session that README.md shows, run again in turn: what it prints is what the program prints today. */
const README = readFileSync(fileURLToPath(new URL('../../README.md', import.meta.url)), 'utf8');

const SESSIONS = sessionsIn(README);
const practice = demoPractice();
afterAll(practice.remove);

test('the README shows sessions', () => {
  expect(SESSIONS.length).toBeGreaterThan(8);
});

describe.sequential('README', () => {
  test.each(SESSIONS)('scruple $command', ({ command, shown }) => {
    expect(practice.print(command)).toBe(shown);
  });
});
