import { describe, expect, it } from 'vitest';
import { commandLine, drawn, fileCase } from './cases.js';
import { tryCommand, tryFile } from './run.js';

/** A short slice of `npm run fuzz`, from the seed that the laws run from. */
const SEED = Number(process.env.SCRUPLE_SEED ?? 2026);

describe('hostile input', () => {
  it('as files is read or refused with a reason, never with a stack trace', async () => {
    for (const c of drawn(fileCase, SEED, 600)) expect(await tryFile(c), JSON.stringify(c)).toBeNull();
  }, 120_000);

  it('as command lines is answered or refused with a reason', () => {
    for (const c of drawn(commandLine, SEED, 30)) expect(tryCommand(c), JSON.stringify(c)).toBeNull();
  }, 120_000);

  it('that breaks the program is told', async () => {
    const nothing = {
      what: 'file',
      kind: 'formula',
      name: 'x',
      path: 'x',
      text: null as unknown as string,
    } as const;
    expect(await tryFile(nothing)).toMatch(/^threw/);
    expect(tryCommand({ what: 'command', args: ['--version'] })).toBeNull();
  });
});
