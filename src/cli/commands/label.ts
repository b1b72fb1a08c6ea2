import { decide } from '../../checking/deciding.ts';
import { sentenceText } from '../../checking/finding.ts';
import { runCheck } from '../../checking/run.ts';
import { type Folder, hasId } from '../../folder/folder.ts';
import type { CalendarDate } from '../../measure/calendar.ts';
import { parseNumber } from '../../measure/parse.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import { type Label, type LabelSize, labelJson, labelSheet, labelText } from '../../reports/label.ts';
import { inHandOf, labelFacts, saidToPerson } from '../../reports/label-facts.ts';
import { dayOf } from '../day.ts';
import { discardDate } from '../discard-date.ts';
import { monographsOf } from '../from-shelf.ts';
import { unknownWords } from '../known-words.ts';
import { failedLoading, type Loading, loadBatch, loadFolder } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { understand } from '../load-person.ts';
import type { BatchOptions, ShelfOptions } from '../options.ts';
import { answered, failed, misused, type Outcome, usage } from '../outcome.ts';
import { numberTyped, recordOf, recordsOf } from '../recorded.ts';

type LabelOptions = BatchOptions & ShelfOptions & { readonly width?: string; readonly lines?: string };

/** The label of a record; of a formula, one for a stock bottle of which no record is kept. */
export async function label([what = '']: readonly string[], options: LabelOptions): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const size = sizeOf(options);
  if (!size.ok) return misused(size.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const found = hasId(folder.value, 'formula', what)
    ? await ofFormula(folder.value, what, options, on.value)
    : await ofRecord(folder.value, what);
  if (!found.ok) return failed(found.problems);
  const lines = labelText(found.value, size.value);
  if (!lines.ok) return misused(lines.why);
  return answered([
    {
      name: `label-${what}`,
      sheet: labelSheet(found.value),
      document: `${lines.value.join('\n')}\n`,
      result: labelJson(found.value, lines.value),
    },
  ]);
}

const WIDTH = 40;
const NARROWEST = 20;

function sizeOf({ width, lines }: LabelOptions): Result<LabelSize> {
  const columns = width === undefined ? ok(WIDTH) : wholeNumber('--width', width);
  if (!columns.ok) return columns;
  if (columns.value < NARROWEST)
    return bad(`--width ${width} is too narrow to be read: ${NARROWEST} columns at least`);
  const most = lines === undefined ? ok(null) : wholeNumber('--lines', lines);
  return most.ok ? ok({ width: columns.value, lines: most.value }) : most;
}

function wholeNumber(flag: string, text: string): Result<number> {
  const n = parseNumber(text);
  if (!n.ok) return bad(`${flag} ${n.why}`);
  return n.value.isInteger() && n.value.gt(0) && n.value.lte(1000)
    ? ok(n.value.toNumber())
    : bad(`${flag} must be a whole number above 0`);
}

const practiceOf = ({ settings }: Folder): Pick<Label, 'practice' | 'contact'> => ({
  practice: settings.practice,
  contact: settings.contact,
});

async function ofRecord(folder: Folder, what: string): Promise<Loading<Label>> {
  if (!/^\d+$/.test(what.trim()))
    return failedLoading([usage(`"${what}" is neither a formula of the folder nor the number of a record`)]);
  const number = numberTyped(what);
  if (!number.ok) return number;
  const now = recordsOf(folder);
  if (!now.ok) return now;
  const record = await recordOf(now.value, number.value, ['batch', 'dispensing']);
  if (!record.ok) return record;
  const { value: r } = record;
  const from =
    r.kind === 'batch' ? `Batch ${r.record}` : `Record ${r.record}${r.batch ? `, batch ${r.batch}` : ''}`;
  return {
    ok: true,
    value: {
      ...r.label,
      number: from,
      patient: r.kind === 'dispensing' ? r.patient : null,
      ...practiceOf(folder),
    },
  };
}

/** For a bottle of which no record is kept; what is found of the formula alone is said on it. */
async function ofFormula(
  folder: Folder,
  id: string,
  options: LabelOptions,
  on: CalendarDate,
): Promise<Loading<Label>> {
  const made = await loadBatch(folder, id, options);
  if (!made.ok) return made;
  const until = discardDate(folder, { made: made.value, lines: [] }, options.discardAfter, on);
  if (!until.ok) return failedLoading([usage(until.why)]);
  const tables = await loadCheckTables(folder, [made.value]);
  if (!tables.ok) return tables;
  const nobody = await understand(null, folder, on);
  if (!nobody.ok) return nobody;
  const unknown = await unknownWords([made.value], nobody.value.matching, tables.value, folder);
  if (unknown.length > 0) return failedLoading(unknown);
  const checked = decide(runCheck(caseOf([made.value], nobody.value, tables.value, folder, on)), [], on);
  const findings = checked.findings.map((f) => ({ level: f.level, say: sentenceText(f.say) }));
  const facts = labelFacts(
    made.value.batch,
    monographsOf(made.value),
    inHandOf(made.value.batch),
    { made: on, discard_after: until.value.date },
    saidToPerson(findings, [...made.value.herbs.keys()]),
  );
  return { ok: true, value: { ...facts, number: 'No batch recorded', patient: null, ...practiceOf(folder) } };
}
