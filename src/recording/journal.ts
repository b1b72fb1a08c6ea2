import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Problem } from '../folder/problem.ts';
import { readText } from '../folder/read.ts';
import type { Kept, KeptAs } from '../folder/schema/record.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { DISK, type Disk } from './disk.ts';
import { type RecordNumber, recordNumber } from './number.ts';

/**
 * The records of a folder, numbered in one row: each is a file that is never changed, and the next number is given to
 * whoever first links a whole, synced file to its name. Whoever comes second reads what the first has written and
 * decides anew, so that two at once never draw the same gram, and no lock is left behind by one that died.
 */
export interface Journal {
  readonly folder: string;
  readonly disk: Disk;
}

export const journalOf = (root: string, disk: Disk = DISK): Journal => ({
  folder: join(root, 'records'),
  disk,
});

type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The records as they were at one moment; the text of each is read when it is first asked for. */
export interface Snapshot {
  readonly last: number;
  readonly numbers: readonly RecordNumber[];
  readonly text: (n: RecordNumber) => string;
}

const NAME = /^(\d{6,9})\.yaml$/;
const shown = (n: RecordNumber): string => `records/${n}.yaml`;

/** Problems where a number is missing in the row, or stands twice: what is left of a lot could not be told. */
export function snapshot({ folder, disk }: Journal): Reading<Snapshot> {
  let names: string[];
  try {
    names = disk.list(folder);
  } catch (error) {
    return unreadable('records', error);
  }
  const numbers = names.flatMap((name) => NAME.exec(name)?.[1] ?? []).sort((a, b) => Number(a) - Number(b));
  const amiss = numbers.findIndex((n, i) => n !== recordNumber(i + 1));
  if (amiss >= 0) {
    const missing = recordNumber(amiss + 1);
    const message = `record ${missing} is not there, though later ones are: bring it back (from git or a copy) before anything is recorded`;
    return { ok: false, problems: [{ code: 'not-found', file: shown(missing), message }] };
  }
  const texts = new Map<RecordNumber, string>();
  const text = (n: RecordNumber): string => {
    const known = texts.get(n) ?? disk.read(join(folder, `${n}.yaml`));
    texts.set(n, known);
    return known;
  };
  return { ok: true, value: { last: numbers.length, numbers, text } };
}

const unreadable = (file: string, error: unknown): { ok: false; problems: Problem[] } => {
  const why = (error as NodeJS.ErrnoException).code ?? String(error);
  return {
    ok: false,
    problems: [{ code: 'unreadable', file, message: `this cannot be read (${why})` }],
  };
};

/** The records of these numbers, in their order, each held against the schema. */
export async function readRecords(
  from: Snapshot,
  numbers: readonly RecordNumber[],
): Promise<Reading<Kept[]>> {
  const records: Kept[] = [];
  const problems: Problem[] = [];
  for (const n of numbers) {
    let text: string;
    try {
      text = from.text(n);
    } catch (error) {
      problems.push(...unreadable(shown(n), error).problems);
      continue;
    }
    const known = parsed.get(text);
    const read = known
      ? { ok: true as const, value: { value: known } }
      : await readText('record', text, shown(n), n, '');
    if (!read.ok) problems.push(...read.why);
    else {
      parsed.set(text, read.value.value);
      records.push(read.value.value);
    }
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: records };
}

/** A record is never changed, so that one that was read once is not parsed again when another came first. */
const parsed = new Map<string, Kept>();

/** The one record of a number; a problem where there is none. */
export async function readRecord(from: Snapshot, n: RecordNumber): Promise<Reading<Kept>> {
  if (Number(n) > from.last) {
    const message =
      from.last === 0 ? 'nothing has been recorded yet' : `the last record is ${recordNumber(from.last)}`;
    return {
      ok: false,
      problems: [{ code: 'not-found', file: shown(n), message: `there is no record ${n}: ${message}` }],
    };
  }
  const read = await readRecords(from, [n]);
  if (!read.ok) return read;
  return { ok: true, value: read.value[0] as Kept };
}

/** Numbers of the records whose text holds one of these words: all that could speak of them, and few others. */
export function mentioning({ numbers, text }: Snapshot, words: readonly string[]): RecordNumber[] {
  return numbers.filter((n) => words.some((w) => text(n).includes(w)));
}

/** A record without its number, which it gets when it is written; plain texts, as YAML takes them. */
export type Draft<K extends Kept['kind'] = Kept['kind']> = { readonly kind: K } & Readonly<
  Record<string, unknown>
>;

export type Recorded =
  | { readonly ok: true; readonly number: RecordNumber; readonly record: Kept }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** However many come first; each try is against another's success, so that somebody always gets on. */
const MOST_TRIES = 10_000;

/**
 * Writes what `draft` makes of the records as they are. It is asked again whenever another record was written
 * meanwhile. A record that was given its number stays, whatever fails afterwards.
 */
export async function append<K extends Kept['kind']>(
  journal: Journal,
  draft: (now: Snapshot) => Promise<Reading<Draft<K>>>,
): Promise<Recorded & { readonly record?: KeptAs<K> }> {
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    const now = snapshot(journal);
    if (!now.ok) return now;
    const made = await draft(now.value);
    if (!made.ok) return made;
    const number = recordNumber(now.value.last + 1);
    const { yamlOf } = await import('../folder/validate-text.ts');
    const { kind, ...rest } = made.value;
    const text = yamlOf(withoutNothing({ record: number, kind, ...rest }));
    // What cannot be read back must never be written.
    const valid = await readText('record', text, shown(number), number, '');
    if (!valid.ok)
      throw new Error(`a record that is not in order: ${valid.why.map((p) => p.message).join('; ')}`);
    const claimed = claim(journal, number, text);
    if (!claimed.ok)
      return { ok: false, problems: [{ code: 'unreadable', file: shown(number), message: claimed.why }] };
    if (claimed.value === 'taken') continue;
    return { ok: true, number, record: valid.value.value as KeptAs<K> };
  }
  const message = 'others kept writing records at the same moment: try again';
  return { ok: false, problems: [{ code: 'unreadable', file: 'records', message }] };
}

function withoutNothing(map: Record<string, unknown>): Record<string, unknown> {
  return JSON.parse(JSON.stringify(map, (_, v) => (v === null ? undefined : v)));
}

const NO_LINKS =
  'this disk gives no file a second name, which is what keeps two at once from drawing the same gram: keep the folder on another disk';

/** Gives a text its number, whole and synced, unless the number is taken. */
function claim({ folder, disk }: Journal, number: RecordNumber, text: string): Result<'given' | 'taken'> {
  const temporary = join(folder, `.${number}-${randomBytes(9).toString('hex')}.tmp`);
  const target = join(folder, `${number}.yaml`);
  const says = (error: unknown): string => {
    const code = (error as NodeJS.ErrnoException).code;
    return `nothing was recorded: the system says ${code ?? String(error)}`;
  };
  try {
    disk.makeFolder(folder);
    removeStrays(folder, disk);
    const handle = disk.create(temporary);
    try {
      disk.write(handle, text);
      disk.sync(handle);
    } finally {
      disk.close(handle);
    }
  } catch (error) {
    quietly(() => disk.remove(temporary));
    return bad(says(error));
  }
  try {
    linkOnce(temporary, target, disk);
  } catch (error) {
    quietly(() => disk.remove(temporary));
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return ok('taken');
    return bad(
      ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EXDEV'].includes(code ?? '') ? NO_LINKS : says(error),
    );
  }
  quietly(() => disk.remove(temporary));
  try {
    disk.syncFolder(folder);
    if (disk.read(target) !== text) return bad(readsOtherwise(number));
  } catch {
    return bad(readsOtherwise(number));
  }
  return ok('given');
}

/** A disk over a network may give the name and still say that it failed: the file itself tells by its two names. */
function linkOnce(temporary: string, target: string, disk: Disk): void {
  try {
    disk.link(temporary, target);
  } catch (error) {
    let names = 1;
    quietly(() => {
      names = disk.links(temporary);
    });
    if (names < 2) throw error;
  }
}

const readsOtherwise = (number: RecordNumber): string =>
  `it was recorded as ${number}, but the disk does not give it back as it was written: look at the file before going on, and do not record it again`;

/** What a program that died left behind half-written; nothing of it was ever a record. */
const LEFT_BEHIND = 600;

function removeStrays(folder: string, disk: Disk): void {
  for (const name of disk.list(folder)) {
    if (!/^\.\d+-[0-9a-f]+\.tmp$/.test(name)) continue;
    const stray = join(folder, name);
    quietly(() => {
      if (disk.age(stray) > LEFT_BEHIND) disk.remove(stray);
    });
  }
}

function quietly(work: () => void): void {
  try {
    work();
  } catch {
    // It is in nobody's way: a file of this name is never read, and the next to write takes it along.
  }
}
