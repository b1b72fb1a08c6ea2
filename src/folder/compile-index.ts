import { readdirSync, writeFileSync } from 'node:fs';
import { basename, join, relative } from 'node:path';
import { NO_MEASURES } from '../measure/parse.ts';
import { type FileKind, REFERENCE_KINDS } from './kinds.ts';
import { type Problem, writeProblem } from './problem.ts';
import { type Indexed, readDocument } from './read.ts';
import { store } from './stored.ts';

/**
 * Compiles the YAML that ships with the program into one JSON file per file, named by the SHA-256 of its bytes.
 * At run time a file whose bytes are unchanged is taken from here, and neither parsed nor validated again.
 * Returns what is wrong with the shipped files, as `file:line:column: message`; nothing is wrong with a release.
 */
export async function compileIndex(root: string, out: string): Promise<string[]> {
  const problems: Problem[] = [];
  for (const path of [
    ...yamlIn(join(root, 'monographs')),
    ...yamlIn(join(root, 'formulas')),
    ...yamlIn(join(root, 'monographs', 'reference')),
  ]) {
    const shown = relative(root, path);
    const kind = kindOf(shown);
    if (kind === undefined) {
      problems.push({
        code: 'wrong-id',
        file: shown,
        message: `no shared table has this name: ${REFERENCE_KINDS.join(', ')}`,
      });
      continue;
    }
    // From the YAML, never from an earlier index.
    const read = await readDocument(kind, path, shown, NO_MEASURES, null);
    if (!read.ok) {
      problems.push(...read.why);
      continue;
    }
    const entry: Indexed = { kind, name: basename(path, '.yaml'), value: read.value.value };
    writeFileSync(join(out, `${read.value.hash}.json`), store(entry));
  }
  return problems.map(writeProblem);
}

function kindOf(shown: string): FileKind | undefined {
  const [place, ...below] = shown.split(/[\\/]/);
  if (place === 'formulas') return 'formula';
  if (below.length === 1) return 'monograph';
  return REFERENCE_KINDS.find((k) => k === basename(shown, '.yaml'));
}

function yamlIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((f) => f.isFile() && f.name.endsWith('.yaml'))
    .map((f) => join(folder, f.name))
    .sort();
}
