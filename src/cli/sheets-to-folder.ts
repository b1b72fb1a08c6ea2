import { lstatSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { isDeviceName } from '../folder/id.ts';
import type { Problem } from '../folder/problem.ts';
import { renderMarkdown } from '../reports/markdown.ts';
import { indexSheet } from '../reports/sheet-index.ts';
import type { Answer } from './outcome.ts';
import { output } from './output.ts';
import { progress } from './progress.ts';

/**
 * Writes one file an answer into a folder, made if it is not there, and an index of them at the end. Names are made of
 * the answer's own name with everything but letters, figures and hyphens left out; those of one name are numbered in
 * their order. Where anything is in the way nothing is written.
 */
export async function writeSheets(
  answers: readonly Answer[],
  dir: string,
  force: boolean,
  render: (a: Answer) => Promise<string>,
  extension: string,
): Promise<Problem | null> {
  const names = uniqueNames(answers.map((a) => a.name)).map((n) => `${n}.${extension}`);
  for (const name of [...names, INDEX]) {
    const why = inTheWay(join(dir, name), force);
    if (why !== null) return { code: 'bad-value', file: join(dir, name), message: why };
  }
  try {
    mkdirSync(dir, { recursive: true });
  } catch (error) {
    return {
      code: 'unreadable',
      file: dir,
      message: `the folder cannot be made (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'})`,
    };
  }
  const put = async (name: string, text: string): Promise<Problem | null> => {
    const file = join(dir, name);
    const written = await output(text, { file, force });
    return written.ok ? null : { code: 'unreadable', file, message: written.why };
  };
  const bar = await progress(answers.length, 'sheets');
  for (const [i, answer] of answers.entries()) {
    const failed = await put(names[i] as string, await render(answer));
    if (failed !== null) return failed;
    bar.advance();
  }
  bar.finish();
  const listed = answers.map((a, i) => ({ file: names[i] as string, facts: a.listed ?? [] }));
  return put(INDEX, renderMarkdown(indexSheet(answers[0]?.sheet.subtitle ?? '', listed)));
}

const INDEX = 'index.md';

/** A link may lead out of the folder, and is never written through. */
function inTheWay(file: string, force: boolean): string | null {
  const there = lstatSync(file, { throwIfNoEntry: false });
  if (!there) return null;
  if (there.isSymbolicLink())
    return 'this is a link to somewhere else: take it away, or choose another --output-dir';
  if (!there.isFile()) return 'this is no file: choose another --output-dir';
  return force ? null : 'it is there already: choose another --output-dir, or add --force to overwrite';
}

const LONGEST = 80;

/** No two alike, on file systems that do not tell capitals apart either; what would be a device's name is not. */
function uniqueNames(names: readonly string[]): string[] {
  const safe = names.map((name) => {
    const letters = name
      .replace(/[^A-Za-z0-9-]+/g, '-')
      .slice(0, LONGEST)
      .replace(/^-+|-+$/g, '');
    return letters === '' || isDeviceName(letters.toLowerCase())
      ? `sheet-${letters}`.replace(/-$/, '')
      : letters;
  });
  const often = new Map<string, number>();
  for (const name of safe) often.set(name.toLowerCase(), (often.get(name.toLowerCase()) ?? 0) + 1);
  const taken = new Set([...often].filter(([, n]) => n === 1).map(([name]) => name));
  taken.add('index');
  const digits = Math.max(3, String(names.length).length);
  const next = new Map<string, number>();
  return safe.map((name) => {
    const key = name.toLowerCase();
    if (often.get(key) === 1 && key !== 'index') return name;
    for (let n = (next.get(key) ?? 0) + 1; ; n += 1) {
      const numbered = `${name}-${String(n).padStart(digits, '0')}`;
      next.set(key, n);
      if (taken.has(numbered.toLowerCase())) continue;
      taken.add(numbered.toLowerCase());
      return numbered;
    }
  });
}
