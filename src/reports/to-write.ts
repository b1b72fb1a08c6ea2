import type { Case } from '../checking/case.ts';
import { type DecidedCheck, type DecidedFinding, type Decision, isUndecided } from '../checking/deciding.ts';
import { lookedUp } from '../checking/looked-up.ts';
import { type CalendarDate, writeDate } from '../measure/calendar.ts';
import { cleanJson } from './escape.ts';
import { type Block, words } from './sheet.ts';
import { widthOf } from './wrap.ts';

/** What is left to be written: decisions and words looked up, as a patient file or the command line takes them. */

/** Where a practitioner's decision goes: into the file that was given, or onto the command line beside the answers. */
export type Place = 'file' | 'command line';

/** `typed`: decided on the command line, and nowhere else yet. Without a person there is nobody to decide for. */
export function toWrite(c: Case, checked: DecidedCheck, place: Place, typed: readonly Decision[]): Block[] {
  if (c.person === null) return [];
  const open = checked.findings.filter(isUndecided);
  if (place === 'command line')
    return open.length === 0 ? [] : block(lead(checked, place, false), flagLines(open));
  const kept = checked.findings.filter((f) => f.decision !== null && typed.includes(f.decision));
  const entries = [...kept, ...open].sort(
    (a, b) => checked.findings.indexOf(a) - checked.findings.indexOf(b),
  );
  const decisions =
    entries.length === 0
      ? []
      : block(
          open.length === 0
            ? 'To keep what was decided, write into the patient file:'
            : lead(checked, place, kept.length > 0),
          ['decisions:', ...entries.flatMap((f) => decisionLines(f, c.on))],
        );
  return [...decisions, ...wordBlocks(c)];
}

const block = (says: string, lines: readonly string[]): Block[] => [
  { kind: 'lines', lines: [words(says)] },
  { kind: 'copy', lines },
];

function lead({ verdict }: DecidedCheck, place: Place, someKept: boolean): string {
  const how =
    place === 'file'
      ? 'write into the patient file, each with your reason:'
      : 'add to the command, each with your reason:';
  if (verdict === 'ask') return `Once it is answered, and if it still stands, ${how}`;
  const what = verdict === 'withhold' ? 'To accept any of these all the same' : 'To decide';
  return `${someKept ? 'To keep what was decided and decide the rest' : what}, ${how}`;
}

/** Left blank, reason and initials are refused by whoever reads the file: nothing is accepted by pasting alone. */
function decisionLines({ id, basis, decision }: DecidedFinding, on: CalendarDate): string[] {
  const { because = '', by = '', until } = decision ?? {};
  return mapping([
    ['finding', id],
    ['basis', basis],
    ['on', writeDate(on)],
    ...(until ? [['until', writeDate(until)] as const] : []),
    ['by', quoted(by)],
    ['because', quoted(because)],
  ]);
}

function wordBlocks({ person, questions, on }: Case): Block[] {
  const open = (person?.unresolved ?? []).filter(
    (u) => person && !u.ambiguous && lookedUp(u, person, questions)?.state !== 'good',
  );
  if (open.length === 0) return [];
  const lines = [...new Set(open.map((u) => u.word))].flatMap((word) =>
    mapping([
      ['word', quoted(word)],
      ['on', writeDate(on)],
      ['by', '""'],
      ['because', '""'],
    ]),
  );
  return block(
    'A word that is no slip, and that you have looked up, goes into the patient file with what you found:',
    ['looked_up:', ...lines],
  );
}

const WIDTH = 80;
const FIRST = '  - {';
const NEXT = '     ';

/** An entry of a list as a mapping between braces, over as many lines as it takes. */
function mapping(pairs: readonly (readonly [string, string])[]): string[] {
  const lines: string[] = [];
  let line = FIRST;
  for (const [i, [key, value]] of pairs.entries()) {
    const end = i === pairs.length - 1 ? '}' : ',';
    const part = `${key}: ${value}${end}`;
    const begun = line !== FIRST;
    if (begun && widthOf(`${line} ${part}`) > WIDTH) {
      lines.push(line);
      line = NEXT + part;
    } else line += begun ? ` ${part}` : part;
    if (widthOf(line) <= WIDTH) continue;
    const broken = folded(line.slice(0, -(value + end).length), value, end);
    lines.push(...broken.slice(0, -1));
    line = broken.at(-1) ?? '';
  }
  return [...lines, line];
}

/** A text between double quotes, in which everything unsafe to print is an escape. */
const quoted = (text: string): string => cleanJson(JSON.stringify(text));

/**
 * A value too long for a line, in double quotes: there YAML reads a line break between two words as the space that it
 * stands for, and joins what a backslash at the end of a line has parted inside a word.
 */
function folded(before: string, value: string, end: string): string[] {
  const text = value.startsWith('"') ? value : `"${value}"`;
  const lines: string[] = [];
  let line = before;
  let begun = false;
  for (const word of `${text}${end}`.split(/(?<=\S) (?=\S)/)) {
    const joined = begun ? `${line} ${word}` : line + word;
    if (widthOf(joined) <= WIDTH) line = joined;
    else {
      if (begun) lines.push(line);
      const parts = chopped(begun ? NEXT : before, word);
      lines.push(...parts.slice(0, -1));
      line = parts.at(-1) ?? '';
    }
    begun = true;
  }
  return [...lines, line];
}

/** A word longer than a line; an escape stays whole. */
function chopped(before: string, word: string): string[] {
  const lines: string[] = [];
  let line = before;
  for (const sign of word.match(/\\u[0-9a-f]{4}|\\.|./gsu) ?? []) {
    if (widthOf(line + sign) > WIDTH - 2) {
      lines.push(`${line}\\`);
      line = `${NEXT}${sign === ' ' ? '\\' : ''}`;
    }
    line += sign;
  }
  return [...lines, line];
}

/** Flags to be pasted behind the command: lines that a shell joins. */
function flagLines(open: readonly DecidedFinding[]): string[] {
  const each = open.flatMap(({ id }): string[] => {
    const decide = `  --decide ${id}`;
    const rest = '--because "" --by ""';
    return widthOf(`${decide} ${rest} \\`) <= WIDTH
      ? [`${decide} ${rest}`]
      : [...brokenInShell(decide), `    ${rest}`];
  });
  return each.map((line, i) => (i < each.length - 1 && !line.endsWith('\\') ? `${line} \\` : line));
}

/** A word longer than a line goes on at the very beginning of the next. */
function brokenInShell(line: string): string[] {
  const room = WIDTH - 2;
  return line.length <= room ? [line] : [`${line.slice(0, room)}\\`, ...brokenInShell(line.slice(room))];
}
