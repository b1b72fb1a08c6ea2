import { createHash } from 'node:crypto';
import type { Cited, Figure, Reading } from '../measure/figure.ts';
import { show } from '../measure/figure.ts';
import type { Level } from './level.ts';

/** A sentence whose numbers stay figures. */
export type Sentence = readonly (string | Figure)[];

/** One thing that the check found. */
export interface Finding {
  /** rule/herb/subject: stays the same while it is about the same thing. */
  readonly id: string;
  /** A hash of the facts used: a decision lapses when they change. */
  readonly basis: string;
  readonly level: Level;
  readonly rule: string;
  readonly herb: string | null;
  readonly say: Sentence;
  readonly figures: readonly Figure[];
  readonly source: Cited | null;
  readonly reading: Reading | null;
  /** False for a limit of the law, which no decision sets aside. */
  readonly accept: boolean;
}

export interface Found {
  readonly rule: string;
  readonly herb: string | null;
  readonly subject: string;
  readonly level: Level;
  readonly say: Sentence;
  readonly figures?: readonly Figure[];
  readonly source?: Cited | null;
  readonly accept?: boolean;
  /** Everything the finding rests on; its order does not matter. */
  readonly facts: Readonly<Record<string, unknown>>;
}

const PLAIN = /^[a-z0-9 .%+-]*$/;

/** Most subjects are plain words, for which the tables of other alphabets need not be fetched. */
const letters = (text: string): string =>
  PLAIN.test(text)
    ? text.replace(/ +/g, '-')
    : text
        .normalize('NFKD')
        .replace(/\p{M}/gu, '')
        .replace(/[^\p{L}\p{N}.%+-]+/gu, '-');

const slug = (text: string): string => letters(text.toLowerCase()).replace(/^-+|-+$/g, '') || 'none';

/** The same facts come up for many people: their hash is kept, of as many as are worth it. */
const MOST_KEPT = 5000;
const hashes = new Map<string, string>();

function basisOf(facts: string): string {
  const before = hashes.get(facts);
  if (before !== undefined) return before;
  const basis = createHash('sha256').update(facts).digest('hex').slice(0, 12);
  if (hashes.size >= MOST_KEPT) hashes.clear();
  hashes.set(facts, basis);
  return basis;
}

export function finding(f: Found): Finding {
  return {
    id: `${f.rule}/${f.herb ?? 'formula'}/${slug(f.subject)}`,
    basis: basisOf(canonical({ level: f.level, ...f.facts })),
    level: f.level,
    rule: f.rule,
    herb: f.herb,
    say: f.say,
    figures: f.figures ?? [],
    source: f.source ?? null,
    reading: f.source?.reading ?? null,
    accept: f.accept ?? true,
  };
}

/** JSON with sorted keys and lists, so that no order can show; exact numbers and units as their text. */
export function canonical(v: unknown): string {
  if (v === null || v === undefined) return 'null';
  if (Array.isArray(v)) return `[${v.map(canonical).sort().join(',')}]`;
  if (typeof v !== 'object') return JSON.stringify(v);
  if ('toFixed' in v && typeof v.toFixed === 'function')
    return JSON.stringify((v as { toFixed(): string }).toFixed());
  if ('code' in v && 'size' in v) return JSON.stringify((v as { code: string }).code);
  const entries = Object.entries(v)
    .filter(([, x]) => x !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([k, x]) => `${JSON.stringify(k)}:${canonical(x)}`).join(',')}}`;
}

/** What a sentence says, less its punctuation and capitals: a decision must not lapse over a comma. */
export function prose(text: string): string {
  return (text.toLowerCase().match(/[\p{L}\p{N}]+(?:[.,]\p{N}+)*/gu) ?? []).join(' ');
}

/** The sentence as plain text. */
export function sentenceText(s: Sentence): string {
  return s
    .map((part) => (typeof part === 'string' ? part : show(part)))
    .join(' ')
    .replace(/ ([,.;:)])/g, '$1')
    .replace(/\( /g, '(');
}
