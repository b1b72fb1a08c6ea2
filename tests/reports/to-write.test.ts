import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { type DecidedFinding, type Decision, decide } from '../../src/checking/deciding.ts';
import { finding } from '../../src/checking/finding.ts';
import { runCheck } from '../../src/checking/run.ts';
import { readText } from '../../src/folder/read.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { toWrite } from '../../src/reports/to-write.ts';
import { caseFor, WELL, yaml } from '../checking/judge.ts';
import { herb, tea } from '../checking/small.ts';
import { must } from '../must.ts';

const ON = must(parseDate('2026-05-02'));
const FILES = { ...herb(), ...tea() };
const caseOf = (medicines: string) =>
  caseFor({ formula: 'test-tea', person: { ...WELL, medicines }, files: FILES });

/** The lines to be copied, as a patient file that ends in them. */
const copied = (blocks: ReturnType<typeof toWrite>): string[] =>
  blocks.flatMap((b) => (b.kind === 'copy' ? b.lines : []));
const asPatient = async (lines: readonly string[]) =>
  must(await readText('patient', `${yaml(WELL)}\n${lines.join('\n')}\n`, 'patient', null, 'x')).value;

const found = (subject: string, rule = 'caution'): DecidedFinding => ({
  ...finding({ rule, herb: 'test-herb', subject, level: 'decide', say: ['x'], facts: { subject } }),
  decision: null,
  unheld: null,
  countsAs: 'decide',
});

/** Anything that a reason may hold: quotes, backslashes, commas, line ends, signs of other scripts, very long words. */
const reason = fc
  .array(
    fc.oneof(
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }),
      fc.constantFrom(
        'a "mild" rash,',
        'C:\\',
        '{x}',
        '# no',
        '- ',
        "it's",
        '\u202e',
        '\n',
        '  ',
        'x'.repeat(90),
      ),
    ),
    { minLength: 1, maxLength: 12 },
  )
  .map((parts) => parts.join(' '))
  .filter((text) => text.trim() !== '');

describe('what is to be written into the patient file', () => {
  it('reads back as what was decided, whatever the reason, in lines of 80', async () => {
    const c = await caseOf('[]');
    await fc.assert(
      fc.asyncProperty(
        reason,
        fc.string({ unit: 'grapheme', minLength: 1, maxLength: 8 }).filter((t) => t.trim() !== ''),
        fc.stringMatching(/^[a-z]([a-z-]{0,120}[a-z])?$/),
        fc.boolean(),
        async (because, by, subject, ends) => {
          const f = found(subject);
          const decision: Decision = {
            ...{ finding: f.id, basis: f.basis, because, by, on: ON },
            ...(ends ? { until: must(parseDate('2026-08-01')) } : {}),
          };
          const checked = {
            verdict: 'note' as const,
            findings: [{ ...f, decision, countsAs: 'note' as const }],
            notNeeded: [],
          };
          const lines = copied(toWrite(c, checked, 'file', [decision]));
          for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(80);
          expect((await asPatient(lines)).decisions).toEqual([decision]);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('is refused as long as the reason is blank', async () => {
    const c = await caseOf('[]');
    const checked = { verdict: 'decide' as const, findings: [found('x')], notNeeded: [] };
    const lines = copied(toWrite(c, checked, 'file', []));
    const read = await readText('patient', `${yaml(WELL)}\n${lines.join('\n')}\n`, 'patient', null, 'x');
    expect(read.ok ? [] : read.why.map((p) => p.message)).toEqual([
      'nothing is written here: write some words',
      'nothing is written here: write some words',
    ]);
    expect((await asPatient(lines.map((l) => l.replaceAll('""', '"x"')))).decisions).toHaveLength(1);
  });

  it('has each word once that nobody looked up, and none that stands for several', async () => {
    const c = await caseOf('[collagen, "Sea \\"moss\\"", collagen, AZT]');
    const lines = copied(toWrite(c, decide(runCheck(c), [], ON), 'file', []));
    const read = await asPatient(lines.map((l) => l.replaceAll(': ""', ': "x"')));
    expect(read.looked_up?.map((l) => l.word)).toEqual(['collagen', 'Sea "moss"']);
    expect(read.decisions).toBeUndefined();
  });

  it('is nothing where nothing is open, and nothing for nobody', async () => {
    const c = await caseOf('[]');
    const clear = { verdict: 'clear' as const, findings: [], notNeeded: [] };
    expect(toWrite(c, clear, 'file', [])).toEqual([]);
    const open = { verdict: 'decide' as const, findings: [found('x')], notNeeded: [] };
    expect(toWrite({ ...c, person: null }, open, 'file', [])).toEqual([]);
  });
});

describe('what is to be typed', () => {
  it('joins into one command in a shell, whatever the length of an id', async () => {
    const c = await caseOf('[]');
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.stringMatching(/^[a-z]([a-z-]{0,120}[a-z])?$/), { minLength: 1, maxLength: 4 }),
        (subjects) => {
          const findings = subjects.map((s) => found(s));
          const checked = { verdict: 'decide' as const, findings, notNeeded: [] };
          const lines = copied(toWrite(c, checked, 'command line', []));
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
          const joined = lines.join('\n').replaceAll('\\\n', '');
          expect(joined).not.toContain('\n');
          expect(joined.trim().split(/\s+/)).toEqual(
            findings.flatMap((f) => ['--decide', f.id, '--because', '""', '--by', '""']),
          );
        },
      ),
    );
  });
});
