import { createInterface } from 'node:readline/promises';
import { JURISDICTIONS } from '../folder/schema/practice.ts';
import { settledUnit } from '../folder/settled.ts';
import { nearest } from '../measure/nearest.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { Settled } from '../reports/practice-files.ts';

/** What a new practice settles: from the options, and on a terminal by asking for what they leave out. */

export interface PracticeOptions {
  readonly practice?: string;
  readonly jurisdiction?: string;
  readonly pint?: string;
}

type Key = keyof Settled;

const READ: Readonly<Record<Key, (text: string) => Result<string>>> = {
  practice: (text) => (text.trim() === '' ? bad('nothing is written: write its name') : ok(text.trim())),
  jurisdiction: (text) => {
    const given = text.trim().toLowerCase();
    const found = JURISDICTIONS.find((j) => j.toLowerCase() === given);
    if (found !== undefined) return ok(found);
    const near = nearest(given, JURISDICTIONS)[0];
    const hint = near === undefined ? '' : `, did you mean ${near}?`;
    return bad(`"${text}" is not one of ${JURISDICTIONS.join(', ')}${hint}`);
  },
  pint: (text) => {
    const unit = settledUnit('pint', text.trim());
    if (!unit) return bad(`a pint cannot be "${text}": write imperial or US`);
    return ok(unit.symbol.startsWith('imp') ? 'imperial' : 'US');
  },
};

const ASKS: Readonly<Record<Key, string>> = {
  practice: 'The name of the practice?',
  jurisdiction: `Whose law holds here (${JURISDICTIONS.join(', ')})?`,
  pint: 'What is a bare pint here (imperial or US)?',
};

const KEYS = Object.keys(READ) as Key[];

/** What the options say; the first of them that is wrong. */
export function fromOptions(options: PracticeOptions): Result<Settled> {
  const settled: Record<Key, string | null> = { practice: null, jurisdiction: null, pint: null };
  for (const key of KEYS) {
    const given = options[key];
    if (given === undefined) continue;
    const r = READ[key](given);
    if (!r.ok) return bad(`--${key}: ${r.why}`);
    settled[key] = r.value;
  }
  return ok(settled);
}

/** Asks for what is not settled; an empty answer leaves it so. Null where the asking was broken off. */
export async function askFor(settled: Settled): Promise<Settled | null> {
  // Questions are not data: they go to standard error, as everything does that is not the answer.
  const asking = createInterface({ input: process.stdin, output: process.stderr });
  // Lines that come faster than the questions, as from a paste, wait for theirs.
  const lines = asking[Symbol.asyncIterator]();
  const answers: Record<Key, string | null> = { ...settled };
  try {
    for (const key of KEYS) {
      while (answers[key] === null) {
        asking.setPrompt(`${ASKS[key]} (Enter leaves it out) `);
        asking.prompt();
        const line = await lines.next();
        if (line.done) return null;
        const said = line.value;
        if (said.trim() === '') break;
        const r = READ[key](said);
        if (r.ok) answers[key] = r.value;
        else process.stderr.write(`${r.why}\n`);
      }
    }
    return answers;
  } finally {
    asking.close();
  }
}
