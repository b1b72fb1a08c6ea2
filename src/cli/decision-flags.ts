import { type Decision, mayBeAccepted } from '../checking/deciding.ts';
import { type Finding, sentenceText } from '../checking/finding.ts';
import { type CalendarDate, compareDates, parseDate, writeDate } from '../measure/calendar.ts';
import { nearest } from '../measure/nearest.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { DecisionOptions } from './options.ts';

/** A decision as it is typed: its basis is that of the finding at hand, unless it was typed too. */
export interface TypedDecision extends Omit<Decision, 'basis'> {
  readonly basis: string | null;
}

const HOW = '--decide ID --because "your reason" --by XX';

/** The decisions of the command line, made on the day of the check. Everything that is wrong with them is said at once. */
export function decisionsTyped(
  { decide = [], because = [], by = [], until = [] }: DecisionOptions,
  on: CalendarDate,
): Result<readonly TypedDecision[], readonly string[]> {
  const partners = [
    ['--because', because],
    ['--by', by],
  ] as const;
  const alone = [...partners, ['--until', until] as const].filter(([, list]) => list.length > 0);
  if (decide.length === 0)
    return alone.length === 0 ? ok([]) : bad([`${alone[0]?.[0]} belongs to a decision: write ${HOW}`]);
  const counts = partners.flatMap(([flag, list]) =>
    list.length === decide.length
      ? []
      : [`--decide stands ${often(decide.length)} and ${flag} ${often(list.length)}: write ${HOW} for each`],
  );
  if (until.length !== 0 && until.length !== decide.length)
    counts.push(
      `--decide stands ${often(decide.length)} and --until ${often(until.length)}: write one for each, --until none where it has no end`,
    );
  if (counts.length > 0) return bad(counts);
  const faults: string[] = [];
  const typed = decide.map((text, i): TypedDecision => {
    const { finding, basis } = namedIn(text);
    const reason = (because[i] ?? '').trim();
    const who = (by[i] ?? '').trim();
    const end = untilOf(until[i], on);
    const of = finding === '' ? '' : ` for ${finding}`;
    if (finding === '') faults.push(`--decide is empty: write the id of a finding, as it stands below it`);
    if (reason === '') faults.push(`--because is empty${of}: write the reason, for whoever reads it later`);
    if (who === '') faults.push(`--by is empty${of}: write the initials of who decides`);
    if (!end.ok) faults.push(end.why);
    return {
      finding,
      basis,
      because: reason,
      by: who,
      on,
      until: end.ok ? end.value : undefined,
    };
  });
  const twice = typed.map((t) => t.finding).filter((id, i, all) => id !== '' && all.indexOf(id) < i);
  faults.push(...[...new Set(twice)].map((id) => `--decide ${id} stands twice: keep one, with its reason`));
  return faults.length > 0 ? bad([...new Set(faults)]) : ok(typed);
}

const often = (count: number): string =>
  count === 0 ? 'not at all' : count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`;

/** Whoever copies the line below a finding copies its basis too. */
function namedIn(text: string): Pick<TypedDecision, 'finding' | 'basis'> {
  const [, finding = text.trim(), basis = null] = /^\s*(\S+)\s+basis\s+(\S+)\s*$/.exec(text) ?? [];
  return { finding, basis };
}

function untilOf(text: string | undefined, on: CalendarDate): Result<CalendarDate | undefined> {
  if (text === undefined || /^none$/i.test(text.trim())) return ok(undefined);
  const end = parseDate(text);
  if (!end.ok) return bad(`--until ${end.why}`);
  return compareDates(end.value, on) >= 0
    ? end
    : bad(`--until ${writeDate(end.value)} is before the day of the decision, ${writeDate(on)}`);
}

/** Binds typed decisions to what was found; what cannot be decided is refused, because somebody meant to decide it. */
export function bound(
  typed: readonly TypedDecision[],
  findings: readonly Finding[],
): Result<readonly Decision[], readonly string[]> {
  const faults: string[] = [];
  const decisions = typed.flatMap((t): Decision[] => {
    const f = findings.find((x) => x.id === t.finding);
    const fault = f === undefined ? notFound(t.finding, findings) : whyRefused(t, f);
    if (fault !== null) faults.push(`--decide ${t.finding} ${fault}`);
    return f === undefined ? [] : [{ ...t, basis: f.basis }];
  });
  return faults.length > 0 ? bad(faults) : ok(decisions);
}

function whyRefused({ basis }: TypedDecision, f: Finding): string | null {
  if (f.level === 'ask')
    return f.rule === 'unknown-word'
      ? 'is a word to look up, and not to decide: write it under looked_up: in the patient file, with what you found'
      : `is a question, and wants an answer: ${sentenceText(f.say)}`;
  if (!f.accept) return 'is a limit of the law: a legal limit cannot be accepted';
  if (basis !== null && basis !== f.basis)
    return `has the basis ${f.basis} and not ${basis}: the facts have changed, or it was mistyped; read the finding again`;
  return null;
}

const MOST_NAMED = 5;

/** The ids near in spelling, else those that hold every part of what was typed, else what there is to decide. */
function notFound(text: string, findings: readonly Finding[]): string {
  const ids = findings.map((f) => f.id);
  const open = findings.filter(mayBeAccepted).map((f) => f.id);
  const near = nearest(text, ids);
  const meant =
    near.length > 0 ? near : [open, ids].map((list) => holding(text, list)).find((l) => l.length > 0);
  if (meant) return `is nothing that was found: did you mean ${meant.slice(0, MOST_NAMED).join(' or ')}?`;
  if (open.length === 0) return 'is nothing that was found, and there is nothing to decide';
  const more = open.length > MOST_NAMED ? ' and more' : '';
  return `is nothing that was found: there is ${open.slice(0, MOST_NAMED).join(', ')}${more} to decide`;
}

/** What stands between braces is one of several, and narrows nothing. */
function holding(text: string, ids: readonly string[]): string[] {
  const parts = text
    .toLowerCase()
    .replace(/\{[^}]*\}/g, ' ')
    .split(/[/\s]+/)
    .filter((part) => part !== '');
  return parts.length === 0 ? [] : ids.filter((id) => parts.every((part) => id.includes(part)));
}
