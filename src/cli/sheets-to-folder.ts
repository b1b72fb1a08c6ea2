import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../folder/problem.ts';
import type { Answer } from './outcome.ts';
import { output } from './output.ts';
import { progress } from './progress.ts';

/**
 * Writes one file an answer into a folder, made if it is not there. Names are made of the answer's own name with
 * everything but letters, figures and hyphens left out; two of one name are told apart by a number.
 */
export async function writeSheets(
  answers: readonly Answer[],
  dir: string,
  force: boolean,
  render: (a: Answer) => Promise<string>,
  extension: string,
): Promise<Problem | null> {
  const names = uniqueNames(answers.map((a) => a.name));
  const taken = force ? undefined : names.map((n) => join(dir, `${n}.${extension}`)).find(existsSync);
  if (taken !== undefined)
    return {
      code: 'bad-value',
      file: taken,
      message: 'it is there already: choose another --output-dir, or add --force to overwrite',
    };
  try {
    mkdirSync(dir, { recursive: true });
  } catch (error) {
    return {
      code: 'unreadable',
      file: dir,
      message: `the folder cannot be made (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'})`,
    };
  }
  const bar = await progress(answers.length, 'sheets');
  for (const [i, answer] of answers.entries()) {
    const file = join(dir, `${names[i]}.${extension}`);
    const written = await output(await render(answer), { file, force });
    if (!written.ok) return { code: 'unreadable', file, message: written.why };
    bar.advance();
  }
  bar.finish();
  return null;
}

function uniqueNames(names: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return names.map((name) => {
    const safe =
      name
        .replace(/[^A-Za-z0-9-]+/g, '-')
        .replace(/^-+|-+$/g, '')
        .slice(0, 80) || 'sheet';
    const count = (seen.get(safe.toLowerCase()) ?? 0) + 1;
    seen.set(safe.toLowerCase(), count);
    return count === 1 ? safe : `${safe}-${count}`;
  });
}
