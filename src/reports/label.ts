import type { LabelFacts } from '../folder/schema/record.ts';
import { dayInWords, writeDate } from '../measure/calendar.ts';
import { exact } from '../measure/exact.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { writeNumber } from '../measure/write.ts';
import { CAUTION } from './caution.ts';
import { cleanLine } from './escape.ts';
import { type Block, type Sheet, words } from './sheet.ts';
import { keepNumbers, widthOf, wrap } from './wrap.ts';

/** A label as it is stuck on: what the record holds, and whose it is. */
export interface Label extends LabelFacts {
  /** `Batch 000012`, `Record 000013`, or that none was kept. */
  readonly number: string;
  /** The person's code; null on a stock bottle. */
  readonly patient: string | null;
  readonly practice: string | null;
  readonly contact: string | null;
}

export interface LabelSize {
  /** Columns of print. */
  readonly width: number;
  /** Lines at the most; null where it may be as long as it is. */
  readonly lines: number | null;
}

/** The parts of a label in the order in which they are read, each a paragraph. */
function paragraphs(l: Label): string[] {
  return [
    l.title,
    ...(l.patient === null ? ['Stock bottle: check before it is handed to anyone'] : [`For ${l.patient}`]),
    ...l.directions,
    ...l.says.map(sentenceCase),
    'Contents:',
    ...l.contents.map((c) => `- ${c}`),
    ...(l.strength ? [`Strength: ${l.strength}`] : []),
    `Made ${dayInWords(l.made)}. Discard after ${dayInWords(l.discard_after)}.`,
    l.number,
    'Keep away from children.',
    ...[[l.practice, l.contact].filter((x) => x !== null).join(', ')].filter((x) => x !== ''),
    CAUTION,
  ];
}

const sentenceCase = (text: string): string => {
  const t = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(t) ? t : `${t}.`;
};

/**
 * The label as lines of print. Errors: a word that is wider than the label, and more lines than there are; nothing is
 * ever cut off, for what falls off a label may be the warning.
 */
export function labelText(label: Label, { width, lines: most }: LabelSize): Result<readonly string[]> {
  const all = paragraphs(label).map(cleanLine);
  const wide = all
    .flatMap((p) => p.split(' '))
    .sort((a, b) => widthOf(b) - widthOf(a))
    .find((w) => widthOf(w) > width);
  if (wide !== undefined)
    return bad(`"${wide}" is wider than the label: make it ${number(widthOf(wide))} columns wide at least`);
  const lines = all.flatMap((p) => wrap(keepNumbers(p), width));
  if (most !== null && lines.length > most)
    return bad(
      `the label needs ${number(lines.length)} lines of ${number(width)} columns and has ${number(most)}: use a larger one, for nothing of it may be left out`,
    );
  return ok(lines);
}

const number = (n: number): string => writeNumber(exact(n));

/** The label for a page: the same parts under each other. */
export function labelSheet(label: Label): Sheet {
  const [title = '', ...rest] = paragraphs(label);
  const body = rest.filter(
    (p) => p !== CAUTION && p !== 'Contents:' && !label.contents.some((c) => p === `- ${c}`),
  );
  const at = body.findIndex((p) => p.startsWith('Made ') || p.startsWith('Strength: '));
  const said = (list: readonly string[]): Block => ({ kind: 'lines', lines: list.map((p) => words(p)) });
  return {
    title,
    blocks: [
      said(body.slice(0, at)),
      {
        kind: 'section',
        title: 'Contents',
        blocks: [{ kind: 'list', items: label.contents.map((c) => words(c)) }],
      },
      said(body.slice(at)),
      { kind: 'caution', text: CAUTION },
    ],
  };
}

/** Keys for scripts: what stands on it, and the lines of print. */
export function labelJson(label: Label, lines: readonly string[]): Record<string, unknown> {
  const { made, discard_after: until, ...rest } = label;
  return { ...rest, made: writeDate(made), discard_after: writeDate(until), lines };
}
