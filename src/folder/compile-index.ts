import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { NO_MEASURES } from '../measure/parse.ts';
import { type FileKind, REFERENCE_KINDS } from './kinds.ts';
import { parseYaml } from './parse.ts';
import { writeProblem } from './problem.ts';
import { store } from './stored.ts';
import { validate } from './validate.ts';

/**
 * Compiles the YAML that ships with the program into one JSON file per file, named by the SHA-256 of its bytes.
 * At run time a file whose bytes are unchanged is taken from here, and neither parsed nor validated again.
 * Returns what is wrong with the shipped files, as `file:line:column: message`; nothing is wrong with a release.
 */
export async function compileIndex(root: string, out: string): Promise<string[]> {
  const files: [FileKind, string][] = [
    ...yamlIn(join(root, 'monographs')).map((f): [FileKind, string] => ['monograph', f]),
    ...yamlIn(join(root, 'formulas')).map((f): [FileKind, string] => ['formula', f]),
    ...yamlIn(join(root, 'monographs', 'reference')).flatMap((f): [FileKind, string][] => {
      const kind = REFERENCE_KINDS.find((k) => k === basename(f, '.yaml'));
      return kind ? [[kind, f]] : [];
    }),
  ];
  const problems: string[] = [];
  for (const [kind, file] of files) {
    const bytes = readFileSync(file);
    const shown = file.slice(root.length);
    const name = basename(file, '.yaml');
    const parsed = parseYaml(bytes.toString('utf8'), shown);
    const valid = parsed.ok ? await validate(kind, parsed.value, shown, name, NO_MEASURES) : parsed;
    if (!valid.ok) {
      problems.push(...valid.why.map(writeProblem));
      continue;
    }
    const hash = createHash('sha256').update(bytes).digest('hex');
    writeFileSync(join(out, `${hash}.json`), store({ kind, name, value: valid.value }));
  }
  return problems;
}

function yamlIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((f) => f.isFile() && f.name.endsWith('.yaml'))
    .map((f) => join(folder, f.name))
    .sort();
}
