import { randomBytes } from 'node:crypto';
import { unlinkSync } from 'node:fs';
import { type FileHandle, link, open, realpath, rename, stat, unlink } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { bad, ok, type Result } from '../measure/result.ts';
import { cleanLine } from '../reports/escape.ts';
import { inWords, type Output } from './output.ts';

/** A file that appears whole or not at all: written beside its place, synced, then given its name. */
export async function toFile(file: string, force: boolean): Promise<Result<Output>> {
  if (file === '') return bad('--output needs the name of a file');
  const shown = cleanLine(file);
  const exists = `${shown} is there already: choose another name, or add --force to overwrite it`;
  // Forced onto a symbolic link, the file that it points to is replaced and the link stays.
  const target = force ? await realpath(file).catch(() => file) : file;
  const there = await stat(target).catch(() => undefined);
  if (there && !there.isFile()) return bad(`${shown} is not a file`);
  if (there && !force) return bad(exists);

  // The name is our own and short, so that it fits wherever the target's does.
  const temporary = join(dirname(target), `.scruple-${randomBytes(9).toString('hex')}.tmp`);
  let handle: FileHandle;
  try {
    handle = await open(temporary, 'wx', there ? 0o600 : 0o666);
  } catch (error) {
    return bad(`${shown} cannot be written: ${inWords(error)}`);
  }

  const clean = async (): Promise<void> => {
    await handle.close().catch(() => {});
    await unlink(temporary).catch(() => {});
    forget(temporary);
  };
  remember(temporary);
  const orClean = async <T>(work: () => Promise<T>): Promise<Result<T>> => {
    try {
      return ok(await work());
    } catch (error) {
      await clean();
      const taken = !force && (error as NodeJS.ErrnoException).code === 'EEXIST';
      return bad(taken ? exists : `${shown} could not be written: ${inWords(error)}`);
    }
  };

  return ok({
    write: (text) =>
      orClean(async () => {
        await handle.writeFile(text);
        return 'written' as const;
      }),
    finish: () =>
      orClean(async () => {
        // What replaces a private file is as private.
        if (there) await handle.chmod(there.mode & 0o777);
        await handle.sync();
        await handle.close();
        if (force) await rename(temporary, target);
        else await takeName(temporary, target);
        await clean();
        return undefined;
      }),
    abandon: clean,
  });
}

/** Gives the file its name unless the name is taken, in one step: two at once cannot both have it. */
async function takeName(temporary: string, target: string): Promise<void> {
  try {
    await link(temporary, target);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') throw error;
    // Some file systems (memory sticks, network shares) have no links: hold the name with an empty file instead.
    await (await open(target, 'wx')).close();
    try {
      await rename(temporary, target);
    } catch (failure) {
      await unlink(target).catch(() => {});
      throw failure;
    }
  }
}

/** Files not finished yet: however the program ends, it takes them along. */
const unfinished = new Set<string>();
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

function onExit(): void {
  for (const temporary of unfinished) {
    try {
      unlinkSync(temporary);
    } catch {
      // Gone already, or not to be had: nothing more can be done on the way out.
    }
  }
}

function onSignal(signal: NodeJS.Signals): void {
  onExit();
  for (const temporary of unfinished) forget(temporary);
  process.kill(process.pid, signal);
}

function remember(temporary: string): void {
  if (unfinished.size === 0) {
    process.on('exit', onExit);
    for (const signal of SIGNALS) process.on(signal, onSignal);
  }
  unfinished.add(temporary);
}

/** With the last one gone, a signal does again what it did before. */
function forget(temporary: string): void {
  if (!unfinished.delete(temporary) || unfinished.size > 0) return;
  process.off('exit', onExit);
  for (const signal of SIGNALS) process.off(signal, onSignal);
}
