import { type DecidedCheck, decide } from '../../checking/deciding.ts';
import { sentenceText } from '../../checking/finding.ts';
import { EXIT } from '../../checking/level.ts';
import { runCheck } from '../../checking/run.ts';
import { summaryOf } from '../../checking/summary.ts';
import type { Folder } from '../../folder/folder.ts';
import type { Patient } from '../../folder/schema/patient.ts';
import type { KeptAs } from '../../folder/schema/record.ts';
import { type CalendarDate, compareDates, writeDate } from '../../measure/calendar.ts';
import type { Quantity } from '../../measure/quantity.ts';
import { costOf } from '../../recording/cost.ts';
import { append, type Draft, journalOf, type Snapshot } from '../../recording/journal.ts';
import { lastsFor } from '../../recording/lasts.ts';
import { dateText, priceText, quantityText } from '../../recording/quantity-text.ts';
import { meaningOf, restsOn } from '../../recording/rests-on.ts';
import { checkFindingsJson, checkJson, checkSheet } from '../../reports/check.ts';
import { dispensingJson, dispensingSheet, refusedSheet } from '../../reports/dispense.ts';
import { labelFacts, saidToPerson } from '../../reports/label-facts.ts';
import { toWrite } from '../../reports/to-write.ts';
import { cancelRecord } from '../cancel-record.ts';
import { dayOf } from '../day.ts';
import { bound, decisionsTyped } from '../decision-flags.ts';
import { monographsOf } from '../from-shelf.ts';
import { unknownWords } from '../known-words.ts';
import { labelText } from '../label-text.ts';
import { failedLoading, type Loading, loadFolder } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { loadPatients, understand } from '../load-person.ts';
import type { DispenseOptions } from '../options.ts';
import { type Answer, answered, failed, misused, type Outcome, usage } from '../outcome.ts';
import { recordReaction } from '../reaction.ts';
import { initialsOf } from '../read-flags.ts';
import { type Remedy, remedyFor } from '../remedy.ts';
import { reviewDate } from '../review-date.ts';

/**
 * Checks a remedy for a person and keeps a record of handing it over. What the check leaves open is not handed over, and
 * nothing is recorded. The lots are drawn with the record, in one step.
 */
export async function dispense([id = '']: readonly string[], options: DispenseOptions): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  if (options.cancel !== undefined)
    return cancelRecord(folder.value, options.cancel, ['dispensing', 'reaction'], options, on.value);
  if (options.reaction !== undefined) return recordReaction(folder.value, options, on.value);
  const by = initialsOf(options.initials);
  if (!by.ok) return misused(by.why);
  if ((options.corrects === undefined) !== (options.why === undefined))
    return misused('--corrects RECORD and --why "what was wrong" go together');
  const patients = await loadPatients(options, on.value);
  if (!patients.ok) return failed(patients.problems);
  const [patient, ...more] = patients.value;
  if (!patient || options.patient === undefined)
    return misused('to whom? name the person with --patient FILE: a record must be able to say');
  if (more.length > 0) return misused('one person at a time: each is a record of its own');
  const typed = decisionsTyped(options, on.value);
  if (!typed.ok) return failed(typed.why.map(usage));

  let told: Told | null = null;
  const recorded = await append<'dispensing'>(journalOf(folder.value.root), async (now) => {
    const judged = await judgedFor(folder.value, now, id, patient, options, typed.value, on.value);
    if (!judged.ok) return judged;
    told = judged.value;
    if (isOpen(judged.value.checked)) return failedLoading([]);
    return dispensingDraft(judged.value, patient, options, by.value, on.value);
  });
  const what = told as Told | null;
  if (!recorded.ok && (recorded.problems.length > 0 || what === null)) return failed(recorded.problems);
  if (what === null) throw new Error('a dispensing without a check');
  if (!recorded.ok) return refused(what);
  return answered([answerOf(what, recorded.record as KeptAs<'dispensing'>)]);
}

interface Told {
  readonly remedy: Remedy;
  readonly c: ReturnType<typeof caseOf>;
  readonly checked: DecidedCheck;
  readonly tables: Parameters<typeof caseOf>[2];
}

/** What is not settled: a question, or something to be decided. A note is said, and needs no more. */
const isOpen = ({ findings }: DecidedCheck): boolean =>
  findings.some((f) => f.level !== 'note' && f.decision === null);

async function judgedFor(
  folder: Folder,
  now: Snapshot,
  id: string,
  patient: Patient,
  options: DispenseOptions,
  typed: Parameters<typeof bound>[0],
  on: CalendarDate,
): Promise<Loading<Told>> {
  const remedy = await remedyFor(folder, now, id, options, on);
  if (!remedy.ok) return remedy;
  const { made } = remedy.value;
  const over = whyOutlasted(remedy.value, on);
  if (over !== null) return failedLoading([usage(over)]);
  const tables = await loadCheckTables(folder, [made]);
  if (!tables.ok) return tables;
  const understood = await understand(patient, folder, on);
  if (!understood.ok) return understood;
  const unknown = await unknownWords([made], understood.value.matching, tables.value, folder);
  if (unknown.length > 0) return failedLoading(unknown);
  const c = caseOf([made], understood.value, tables.value, folder, on);
  const found = runCheck(c);
  const decisions = bound(typed, found.findings);
  if (!decisions.ok) return failedLoading(decisions.why.map(usage));
  const checked = decide(found, [...(patient.decisions ?? []), ...decisions.value], on);
  return { ok: true, value: { remedy: remedy.value, c, checked, tables: tables.value } };
}

/** What is to be discarded before it is used up would carry two directions that contradict each other. */
function whyOutlasted({ made, amount, discardAfter }: Remedy, on: CalendarDate): string | null {
  const lasts = lastsFor(amount, made.batch.supply, on);
  if (lasts === null || compareDates(lasts.until, discardAfter) <= 0) return null;
  return `it lasts until ${writeDate(lasts.until)}, and is to be discarded after ${writeDate(discardAfter)}: hand over less, with --days or --make, or make it so that it keeps`;
}

function refused({ c, checked }: Told): Outcome {
  const summary = summaryOf(c, checked);
  const sheet = refusedSheet(checkSheet(c, checked, summary, toWrite(c, checked, 'file', [])));
  const answer: Answer = {
    name: 'dispense',
    sheet,
    result: { ...checkJson(c, checked, summary), record: null },
    findings: checkFindingsJson(checked),
  };
  return answered([answer], EXIT[checked.verdict]);
}

async function dispensingDraft(
  { remedy, c, checked, tables }: Told,
  patient: Patient,
  options: DispenseOptions,
  by: string,
  on: CalendarDate,
): Promise<Loading<Draft<'dispensing'>>> {
  const { made } = remedy;
  const monographs = monographsOf(made);
  const review = reviewDate(options.review, c, on);
  if (!review.ok) return failedLoading([usage(review.why)]);
  const findings = checked.findings.map((f) => ({
    id: f.id,
    basis: f.basis,
    level: f.level,
    counts_as: f.countsAs,
    say: sentenceText(f.say),
  }));
  const dates = { made: remedy.madeOn, discard_after: remedy.discardAfter };
  const label = labelFacts(
    made.batch,
    monographs,
    remedy.amount,
    dates,
    saidToPerson(findings, [...monographs.keys()]),
  );
  return {
    ok: true,
    value: {
      kind: 'dispensing',
      on: writeDate(on),
      by,
      patient: patient.patient,
      asked: writeDate(patient.asked),
      formula: made.formula.formula,
      title: made.formula.title,
      text: remedy.text,
      amount: quantityText(remedy.amount as Quantity),
      ...(remedy.batch ? { batch: remedy.batch } : { lines: remedy.linesText }),
      cost: pricesOf(remedy),
      verdict: checked.verdict,
      findings,
      decisions: checked.findings.flatMap(({ decision: d }) =>
        d ? [{ ...d, on: writeDate(d.on), until: dateText(d.until) }] : [],
      ),
      rests_on: {
        formula: meaningOf(remedy.base),
        herbs: restsOn(monographs, tables),
        answers: meaningOf(answersOf(patient)),
      },
      label: labelText(label),
      review: dateText(review.value),
      like: remedy.like ?? undefined,
      changes: remedy.changes.length > 0 ? remedy.changes : undefined,
      corrects: remedy.corrects ?? undefined,
      because: options.corrects === undefined ? undefined : options.why?.trim(),
      note: options.note?.trim() || undefined,
    },
  };
}

function pricesOf({ lines, stock }: Remedy): string[] | undefined {
  const prices = costOf(lines, stock).sums.map(priceText);
  return prices.length > 0 ? prices : undefined;
}

/** What the person said; decisions are the practitioner's, and stand in the record themselves. */
function answersOf({ decisions: _, looked_up: __, ...answers }: Patient): unknown {
  return answers;
}

function answerOf({ remedy, c, checked }: Told, record: KeptAs<'dispensing'>): Answer {
  return {
    name: `dispensing-${record.record}`,
    sheet: dispensingSheet(record, c, checked, remedy),
    result: dispensingJson(record, c),
    findings: checkFindingsJson(checked),
  };
}
