import { decide } from '../../checking/deciding.ts';
import { EXIT, LEVELS, type Level, type Verdict } from '../../checking/level.ts';
import { runCheck } from '../../checking/run.ts';
import { summaryOf } from '../../checking/summary.ts';
import type { CheckTables } from '../../checking/tables.ts';
import type { Folder } from '../../folder/folder.ts';
import { type Problem, writeProblem } from '../../folder/problem.ts';
import type { CalendarDate } from '../../measure/calendar.ts';
import { type Counted, caseloadSheet } from '../../reports/caseload.ts';
import { checkFindingsJson, checkJson } from '../../reports/check.ts';
import { cleanLine } from '../../reports/escape.ts';
import { envelope } from '../../reports/json.ts';
import { renderTerminal } from '../../reports/terminal.ts';
import { dayOf } from '../day.ts';
import { unknownWords } from '../known-words.ts';
import { failedLoading, type Loading, loadBatch, loadFolder, type MadeUp } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { notYetBorn, understand } from '../load-person.ts';
import type { CaseloadOptions } from '../options.ts';
import { answered, failed, misused, type Outcome, usage } from '../outcome.ts';
import { type Output, openOutput } from '../output.ts';
import { counting } from '../progress.ts';
import { type Row, rowsOfFolder, rowsOfStream } from '../rows.ts';
import { allVocabularies, matchingOf } from '../vocabularies.ts';

/**
 * Many people against many formulas: one envelope a line, in the order of the rows, written as they are judged. A row
 * that is wrong is told with its number and does not stop the rest. What does not depend on the person is done once.
 */
export async function caseload(ids: readonly string[], options: CaseloadOptions): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  if (options.markdown) return misused('a caseload is written as JSON lines: leave out --markdown');
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const tables = await loadCheckTables(folder.value);
  if (!tables.ok) return failed(tables.problems);
  const shelf = remedies(folder.value, tables.value);
  for (const id of new Set(ids)) {
    const made = await shelf(id);
    if (!made.ok) return failed(made.problems);
  }
  const fromStream = options.patients === undefined || options.patients === '-';
  if (fromStream && process.stdin.isTTY)
    return misused('of whom? name a folder with --patients, or send JSON lines to standard input');
  const source = fromStream
    ? ({ ok: true, value: { rows: rowsOfStream(process.stdin), count: null } } as const)
    : rowsOfFolder(options.patients ?? '');
  if (!source.ok) return failed(source.problems);
  const out = await openOutput({ file: options.output, force: options.force });
  if (!out.ok) return failed([{ code: 'unreadable', file: 'output', message: out.why }]);
  const judge = judging(folder.value, tables.value, shelf, ids, options.together ?? false, on.value);
  const counted = await judgeAll(
    source.value.rows,
    judge,
    lines(out.value),
    counting(source.value.count, 'rows'),
  );
  if (!counted.ok) {
    await out.value.abandon();
    return failed(counted.problems);
  }
  const finished = await out.value.finish();
  if (!finished.ok) return failed([{ code: 'unreadable', file: 'output', message: finished.why }]);
  process.stderr.write(renderTerminal(caseloadSheet(counted.value), { colour: false }));
  return answered([], exitOf(counted.value));
}

/** A row that was wrong was not judged, and nothing says how grave it would have been. */
function exitOf({ badRows, verdicts }: Counted): number {
  if (badRows > 0) return 2;
  return Math.max(0, ...[...verdicts.keys()].map((v) => EXIT[v]));
}

type Shelf = (id: string) => Promise<Loading<MadeUp>>;

/** Each formula made up once, and its words looked for, however many people it is held against. */
function remedies(folder: Folder, tables: CheckTables): Shelf {
  const known = new Map<string, ReturnType<Shelf>>();
  const load: Shelf = async (id) => {
    const made = await loadBatch(folder, id, {});
    if (!made.ok) return made;
    const all = await allVocabularies(folder);
    if (!all.ok) return all;
    const unknown = await unknownWords([made.value], matchingOf(all.value), tables, folder);
    // A word of a monograph that no shared table knows would never be found: nothing is judged before it is put right.
    return unknown.length > 0 ? failedLoading(unknown) : made;
  };
  return (id) => {
    const made = known.get(id) ?? load(id);
    known.set(id, made);
    return made;
  };
}

/** What a row comes to: its lines of output, and what is counted of it. */
interface Judged {
  readonly lines: readonly string[];
  readonly verdicts: readonly Verdict[];
  readonly byHerb: readonly (readonly [herb: string, level: Level])[];
  readonly problems: readonly Problem[];
}

type Judge = (row: Row) => Promise<Loading<Judged>>;

function judging(
  folder: Folder,
  tables: CheckTables,
  shelf: Shelf,
  ids: readonly string[],
  together: boolean,
  on: CalendarDate,
): Judge {
  const bad = (number: number, problems: readonly Problem[]): Loading<Judged> => ({
    ok: true,
    value: {
      lines: [envelope('caseload', { row: String(number), verdict: null }, [], problems)],
      verdicts: [],
      byHerb: [],
      problems,
    },
  });
  return async ({ number, read }) => {
    if (!read.ok) return bad(number, read.problems);
    const { patient } = read;
    const named = read.formulas ?? ids;
    if (named.length === 0)
      return bad(number, [
        atRow(number, 'no formula is meant for this person: name some, or write formulas: into the row'),
      ]);
    const fault = notYetBorn(patient, on);
    if (fault !== null) return bad(number, [atRow(number, `born ${fault}`)]);
    const made: MadeUp[] = [];
    for (const id of new Set(named)) {
      const one = await shelf(id);
      if (!one.ok)
        return bad(
          number,
          one.problems.map((p) => atRow(number, p.message)),
        );
      made.push(one.value);
    }
    const understood = await understand(patient, folder, on);
    if (!understood.ok)
      return bad(
        number,
        understood.problems.map((p) => atRow(number, `${p.file}: ${p.message}`)),
      );
    const groups = together ? [made] : made.map((m) => [m]);
    const lines: string[] = [];
    const verdicts: Verdict[] = [];
    const byHerb: [string, Level][] = [];
    for (const group of groups) {
      const c = caseOf(group, understood.value, tables, folder, on);
      const checked = decide(runCheck(c), patient.decisions ?? [], on);
      lines.push(
        envelope(
          'caseload',
          { row: String(number), ...checkJson(c, checked, summaryOf(c, checked)) },
          checkFindingsJson(checked),
        ),
      );
      verdicts.push(checked.verdict);
      for (const f of checked.findings) if (f.herb !== null) byHerb.push([f.herb, f.level]);
    }
    return { ok: true, value: { lines, verdicts, byHerb, problems: [] } };
  };
}

const atRow = (row: number, message: string): Problem => ({ ...usage(message), file: `row ${row}` });

async function judgeAll(
  rows: AsyncIterable<Row>,
  judge: Judge,
  out: Lines,
  progress: { advance(): void; finish(): void },
): Promise<Loading<Counted>> {
  const verdicts = new Map<Verdict, number>();
  const herbs = new Map<string, Map<Level, number>>();
  let [all, badRows, checks] = [0, 0, 0];
  for await (const row of rows) {
    const judged = await judge(row);
    if (!judged.ok) return judged;
    const { lines, problems, byHerb } = judged.value;
    all += 1;
    if (problems.length > 0) {
      badRows += 1;
      process.stderr.write(`${problems.map((p) => cleanLine(writeProblem(p))).join('\n')}\n`);
    }
    for (const v of judged.value.verdicts) {
      checks += 1;
      verdicts.set(v, (verdicts.get(v) ?? 0) + 1);
    }
    for (const [herb, level] of byHerb) {
      const of = herbs.get(herb) ?? new Map(LEVELS.map((l) => [l, 0]));
      herbs.set(herb, of.set(level, (of.get(level) ?? 0) + 1));
    }
    progress.advance();
    const written = await out.write(lines);
    if (written === 'reader gone') break;
    if (written !== null) return failedLoading([{ code: 'unreadable', file: 'output', message: written }]);
  }
  progress.finish();
  const last = await out.flush();
  if (last !== null && last !== 'reader gone')
    return failedLoading([{ code: 'unreadable', file: 'output', message: last }]);
  return { ok: true, value: { rows: all, badRows, checks, verdicts, herbs } };
}

/** Lines gathered up, so that not each of a hundred thousand is a call to the system; null where all is well. */
interface Lines {
  write(lines: readonly string[]): Promise<string | null>;
  flush(): Promise<string | null>;
}

const AT_ONCE = 64 * 1024;

function lines(out: Output): Lines {
  let waiting = '';
  const flush = async (): Promise<string | null> => {
    if (waiting === '') return null;
    const written = await out.write(waiting);
    waiting = '';
    if (!written.ok) return written.why;
    return written.value === 'reader gone' ? written.value : null;
  };
  return {
    write: async (more) => {
      for (const line of more) waiting += line;
      return waiting.length < AT_ONCE ? null : flush();
    },
    flush,
  };
}
