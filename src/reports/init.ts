import { exact } from '../measure/exact.ts';
import { given } from '../measure/figure.ts';
import { CAUTION } from './caution.ts';
import { type Sheet, words } from './sheet.ts';

/** A folder that was made for a practice: where, the files by what they are, and how it is named on a command line. */
export interface Made {
  readonly folder: string;
  readonly counts: ReadonlyMap<string, number>;
  readonly files: readonly string[];
}

export function initSheet({ folder, counts }: Made): Sheet {
  return {
    title: 'A folder for the practice was made',
    subtitle: folder,
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'made' }, { head: 'files' }],
        rows: [...counts].map(([what, n]) => [words(what), given(exact(n), `files made: ${what}`)]),
      },
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words('Next:')] },
      {
        kind: 'copy',
        lines: [
          `cd ${inShell(folder)}`,
          'scruple list',
          'cp patients/TEMPLATE.yaml patients/P-001.yaml',
          'scruple check after-supper --patient patients/P-001.yaml',
          'git init',
        ],
      },
    ],
  };
}

/** A name that a shell would take apart stands in quotes. */
function inShell(name: string): string {
  const plain = /^[\p{L}\p{N}_./~+-]+$/u.test(name) && !name.startsWith('-') && !name.startsWith('~');
  return plain ? name : `'${name.replaceAll("'", "'\\''")}'`;
}

export function initJson({ folder, counts, files }: Made): Record<string, unknown> {
  return {
    folder,
    counts: Object.fromEntries([...counts].map(([what, n]) => [what, String(n)])),
    files,
  };
}
