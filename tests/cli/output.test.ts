import { spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import * as files from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openOutput, output } from '../../src/cli/output.ts';

vi.mock('node:fs/promises', async (original) => ({ ...(await original<typeof files>()) }));

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scruple-output-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true, force: true });
});

const at = (name: string): string => join(folder, name);
const fault = (code: string): Error => Object.assign(new Error(code), { code });
const why = async (result: Promise<{ ok: boolean; why?: string }>): Promise<string> =>
  (await result).why ?? 'it went well';

describe('a new file', () => {
  test('holds the text, and nothing else is left in the folder', async () => {
    expect(await output('# Tea\n', { file: at('tea.md') })).toEqual({ ok: true, value: 'written' });
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('# Tea\n');
    expect(readdirSync(folder)).toEqual(['tea.md']);
  });

  test('appears whole, when it is finished', async () => {
    const opened = await openOutput({ file: at('tea.md') });
    if (!opened.ok) throw new Error(opened.why);
    await opened.value.write('one\n');
    await opened.value.write('two\n');
    expect(existsSync(at('tea.md'))).toBe(false);
    expect((await opened.value.finish()).ok).toBe(true);
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('one\ntwo\n');
  });

  test('never appears if it is abandoned', async () => {
    const opened = await openOutput({ file: at('tea.md') });
    if (!opened.ok) throw new Error(opened.why);
    await opened.value.write('one\n');
    await opened.value.abandon();
    expect(readdirSync(folder)).toEqual([]);
  });

  test('is written where the file system has no links', async () => {
    const link = vi.spyOn(files, 'link').mockRejectedValue(fault('EPERM'));
    expect((await output('new', { file: at('tea.md') })).ok).toBe(true);
    expect(link).toHaveBeenCalledOnce();
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('new');
    expect(readdirSync(folder)).toEqual(['tea.md']);
  });

  test('does not hold its name where that fails', async () => {
    vi.spyOn(files, 'link').mockRejectedValue(fault('EPERM'));
    vi.spyOn(files, 'rename').mockRejectedValue(fault('EIO'));
    expect(await why(output('new', { file: at('tea.md') }))).toMatch(/EIO/);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('needs its folder and a name', async () => {
    expect(await why(output('x', { file: at('none/tea.md') }))).toMatch(/there is no such folder/);
    expect(await why(output('x', { file: '' }))).toMatch(/name of a file/);
    expect(await why(output('x', { file: at(`${'n'.repeat(300)}.md`) }))).toMatch(/name is too long/);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('a file that is there already', () => {
  beforeEach(() => writeFileSync(at('tea.md'), 'old'));

  test('is kept, and the message names --force', async () => {
    expect(await why(output('new', { file: at('tea.md') }))).toMatch(/tea\.md is there already.*--force/);
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['tea.md']);
  });

  test('is kept even if it came while ours was being written', async () => {
    const opened = await openOutput({ file: at('late.md') });
    if (!opened.ok) throw new Error(opened.why);
    writeFileSync(at('late.md'), 'theirs');
    expect(await why(opened.value.finish())).toMatch(/--force/);
    expect(readFileSync(at('late.md'), 'utf8')).toBe('theirs');
    expect(readdirSync(folder).sort()).toEqual(['late.md', 'tea.md']);
  });

  test('is kept there too where the file system has no links', async () => {
    vi.spyOn(files, 'link').mockRejectedValue(fault('ENOTSUP'));
    const opened = await openOutput({ file: at('late.md') });
    if (!opened.ok) throw new Error(opened.why);
    writeFileSync(at('late.md'), 'theirs');
    expect(await why(opened.value.finish())).toMatch(/--force/);
    expect(readFileSync(at('late.md'), 'utf8')).toBe('theirs');
  });

  test('is replaced with force, and stays as private as it was', async () => {
    chmodSync(at('tea.md'), 0o640);
    expect((await output('new', { file: at('tea.md'), force: true })).ok).toBe(true);
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('new');
    expect(statSync(at('tea.md')).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(['tea.md']);
  });

  test('behind a symbolic link is replaced with force, and the link stays', async () => {
    symlinkSync(at('tea.md'), at('link.md'));
    expect((await output('new', { file: at('link.md'), force: true })).ok).toBe(true);
    expect(lstatSync(at('link.md')).isSymbolicLink()).toBe(true);
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('new');
  });

  test.each([
    ['ENOSPC', /disk is full/],
    ['EIO', /EIO/],
  ] as const)('is untouched where the disk fails with %s', async (code, message) => {
    vi.spyOn(files, 'rename').mockRejectedValue(fault(code));
    expect(await why(output('new', { file: at('tea.md'), force: true }))).toMatch(message);
    expect(readFileSync(at('tea.md'), 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['tea.md']);
  });

  test('is untouched where writing or syncing fails', async () => {
    for (const method of ['writeFile', 'sync'] as const) {
      const { open } = await vi.importActual<typeof files>('node:fs/promises');
      vi.spyOn(files, 'open').mockImplementation(async (...args) => {
        const handle = await open(...args);
        vi.spyOn(handle, method).mockRejectedValue(fault('ENOSPC'));
        return handle;
      });
      expect(await why(output('new', { file: at('tea.md'), force: true }))).toMatch(/disk is full/);
      expect(readFileSync(at('tea.md'), 'utf8')).toBe('old');
      expect(readdirSync(folder)).toEqual(['tea.md']);
    }
  });

  test('that is no file is refused, force or not', async () => {
    mkdirSync(at('folder'));
    expect(await why(output('x', { file: at('folder') }))).toMatch(/is not a file/);
    expect(await why(output('x', { file: at('folder'), force: true }))).toMatch(/is not a file/);
  });
});

describe('standard output', () => {
  const failing = (code: string): Writable =>
    new Writable({ write: (_chunk, _encoding, done) => done(fault(code)) });

  test('gets the text as it is', async () => {
    const chunks: string[] = [];
    const stream = new Writable({
      write: (chunk, _encoding, done) => {
        chunks.push(String(chunk));
        done();
      },
    });
    expect(await output('h\u00e9\n', {}, stream)).toEqual({ ok: true, value: 'written' });
    expect(chunks.join('')).toBe('h\u00e9\n');
  });

  test('whose reader has gone is no fault', async () => {
    expect(await output('text', {}, failing('EPIPE'))).toEqual({ ok: true, value: 'reader gone' });
  });

  test('that fails otherwise says why', async () => {
    expect(await why(output('text', {}, failing('ENOSPC')))).toMatch(/standard output: the disk is full/);
  });
});

describe('the real thing', () => {
  /** Runs a few lines beside `output` as a program of its own. */
  const run = async (lines: string): Promise<ReturnType<typeof spawn>> => {
    const source = fileURLToPath(new URL('../../src/cli/output.ts', import.meta.url));
    const outfile = at('program.mjs');
    const contents = `import { openOutput, output } from ${JSON.stringify(source)};\n${lines}`;
    await build({
      stdin: { contents, resolveDir: folder, loader: 'ts' },
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      logLevel: 'error',
    });
    return spawn(process.execPath, [outfile], { stdio: ['ignore', 'pipe', 'pipe'] });
  };

  const ended = (
    child: ReturnType<typeof spawn>,
  ): Promise<{ code: number | null; signal: string | null; errors: string }> =>
    new Promise((done) => {
      let errors = '';
      child.stderr?.on('data', (chunk) => {
        errors += String(chunk);
      });
      child.on('close', (code, signal) => done({ code, signal, errors }));
    });

  test('ends quietly with its own exit code when the reader goes away', async () => {
    const child = await run(`
      process.exitCode = 5;
      const text = 'line\\n'.repeat(100_000);
      for (let i = 0; i < 50; i++) if ((await output(text, {})).value === 'reader gone') break;
    `);
    child.stdout?.once('data', () => child.stdout?.destroy());
    expect(await ended(child)).toEqual({ code: 5, signal: null, errors: '' });
  });

  const unfinished = (then: string): string => `
    const opened = await openOutput({ file: ${JSON.stringify(at('tea.md'))} });
    await opened.value.write('half of it');
    console.log('waiting');
    ${then}
  `;

  test('ended by a signal half way, it leaves nothing behind', async () => {
    const child = await run(unfinished('setInterval(() => {}, 1000);'));
    child.stdout?.once('data', () => child.kill('SIGTERM'));
    expect(await ended(child)).toMatchObject({ code: null, signal: 'SIGTERM', errors: '' });
    expect(readdirSync(folder)).toEqual(['program.mjs']);
  });

  test('ended by its own fault half way, it leaves nothing behind', async () => {
    const child = await run(unfinished('throw new Error("a fault");'));
    expect((await ended(child)).code).toBe(1);
    expect(readdirSync(folder)).toEqual(['program.mjs']);
  });
});
