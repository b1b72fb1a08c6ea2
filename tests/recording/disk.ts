import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DISK, type Disk } from '../../src/recording/disk.ts';

/** Folders for records, and a disk that fails or dies at a chosen call. */

const made: string[] = [];

export function emptyRoot(): string {
  const root = mkdtempSync(join(tmpdir(), 'scruple-records-'));
  made.push(root);
  return root;
}

export function removeRoots(): void {
  for (const root of made.splice(0)) rmSync(root, { recursive: true, force: true });
}

/**
 * `before`: the call fails and does nothing. `after`: it does its work and then says that it failed. `dead`: from this call
 * on nothing works, as if the power had gone; `half`: the same, and the call had done half of a write.
 */
export type Fault = 'before' | 'after' | 'dead' | 'half';

export interface FaultyDisk {
  readonly disk: Disk;
  /** The calls that were made, by their names. */
  readonly calls: string[];
}

/** A disk whose nth call goes wrong; with n of Infinity none does. */
export function faultyDisk(nth: number, fault: Fault): FaultyDisk {
  const calls: string[] = [];
  const call =
    <A extends unknown[], R>(name: string, work: (...args: A) => R) =>
    (...args: A): R => {
      calls.push(name);
      const n = calls.length;
      const dead = (fault === 'dead' || fault === 'half') && n >= nth;
      if (n !== nth && !dead) return work(...args);
      if (n === nth && fault === 'after') work(...args);
      if (n === nth && fault === 'half' && name === 'write')
        DISK.write(args[0] as number, (args[1] as string).slice(0, 40));
      throw Object.assign(new Error(`${name} failed`), { code: 'EIO' });
    };
  const disk = Object.fromEntries(
    Object.entries(DISK).map(([name, work]) => [name, call(name, work as (...a: unknown[]) => unknown)]),
  ) as unknown as Disk;
  return { disk, calls };
}
