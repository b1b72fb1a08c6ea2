import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DecidedCheck, type Decision, decide } from '../../src/checking/deciding.ts';
import { type Finding, finding } from '../../src/checking/finding.ts';
import { LEVELS, type Level, levelTable, type Verdict, verdictOf } from '../../src/checking/level.ts';
import type { Checked } from '../../src/checking/run.ts';
import type { Levels } from '../../src/folder/schema/reference.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { must } from '../must.ts';
import { judge, WELL } from './judge.ts';
import { herb, tea } from './small.ts';

const day = (text: string) => must(parseDate(text));
const ON = day('2026-05-02');

const found = (level: Level, herbId = 'test-herb', more: Partial<Finding> = {}): Finding => ({
  ...finding({ rule: 'test', herb: herbId, subject: 'x', level, say: ['x'], facts: { herbId } }),
  ...more,
});
const checked = (...findings: Finding[]): Checked => ({
  verdict: verdictOf(findings.map((f) => f.level)),
  findings,
});
const accepts = (f: Finding, more: Partial<Decision> = {}): Decision => ({
  finding: f.id,
  basis: f.basis,
  because: 'the dose is small',
  by: 'AB',
  on: day('2026-04-01'),
  ...more,
});

describe('a decision', () => {
  it.each([
    ['withhold', 'decide'],
    ['decide', 'note'],
  ] as const)('makes an accepted %s count as %s, and keeps the finding as it was', (level, counts) => {
    const f = found(level);
    const c = decide(checked(f), [accepts(f)], ON);
    expect(c.verdict).toBe(counts);
    expect(c.findings).toEqual([{ ...f, decision: accepts(f), unheld: null, countsAs: counts }]);
    expect(c.notNeeded).toEqual([]);
  });

  it('leaves what nobody decided about, and the verdict with it', () => {
    const [accepted, open] = [found('decide', 'a'), found('decide', 'b')];
    const c = decide(checked(accepted, open), [accepts(accepted)], ON);
    expect(c.verdict).toBe('decide');
    expect(c.findings.map((f) => f.countsAs)).toEqual(['note', 'decide']);
  });

  const f = found('withhold');
  it.each<[string, Partial<Decision>, string]>([
    ['of other facts', { basis: '000000000000' }, 'other facts'],
    ['of a day after the check', { on: day('2026-05-03') }, 'later'],
    ['that was over the day before', { until: day('2026-05-01') }, 'over'],
  ])('%s does not count, and that is said', (_, more, why) => {
    const c = decide(checked(f), [accepts(f, more)], ON);
    expect(c.verdict).toBe('withhold');
    expect(c.findings[0]).toMatchObject({
      decision: null,
      countsAs: 'withhold',
      unheld: { why, decision: accepts(f, more) },
    });
  });

  it('of the day itself, and until the day itself, holds', () => {
    expect(decide(checked(f), [accepts(f, { on: ON, until: ON })], ON).verdict).toBe('decide');
  });

  it('does not answer a question, whatever its basis', () => {
    const q = found('ask');
    const c = decide(checked(q), [accepts(q)], ON);
    expect(c.verdict).toBe('ask');
    expect(c.findings[0]).toMatchObject({ countsAs: 'ask', decision: null, unheld: { why: 'a question' } });
  });

  it('about a note is not needed, and does no harm', () => {
    const n = found('note');
    const c = decide(checked(n), [accepts(n)], ON);
    expect(c).toMatchObject({ verdict: 'note', notNeeded: [n.id] });
    expect(c.findings[0]).toMatchObject({ decision: null, unheld: null, countsAs: 'note' });
  });

  it('about nothing that was found is not needed, and is said once', () => {
    const gone = accepts(found('decide', 'gone'));
    const c = decide(checked(f), [gone, { ...gone, by: 'CD' }], ON);
    expect(c.notNeeded).toEqual([gone.finding]);
    expect(c.verdict).toBe('withhold');
  });

  it('cannot accept what the law limits', () => {
    const limit = found('withhold', 'test-herb', { accept: false });
    const c = decide(checked(limit), [accepts(limit)], ON);
    expect(c.verdict).toBe('withhold');
    expect(c.findings[0]).toMatchObject({ countsAs: 'withhold', decision: null, unheld: { why: 'law' } });
  });

  it('that was renewed holds again, and the newest is the one that is told', () => {
    const old = accepts(f, { on: day('2025-04-01'), until: day('2025-10-01'), by: 'OLD' });
    const now = accepts(f, { on: day('2026-03-01'), by: 'NEW' });
    expect(decide(checked(f), [old, now], ON).findings[0]?.decision?.by).toBe('NEW');
    const older = accepts(f, { on: day('2025-01-01'), by: 'OLDER' });
    expect(decide(checked(f), [older, old], ON).findings[0]?.decision?.by).toBe('OLDER');
    expect(
      decide(checked(f), [{ ...older, until: day('2025-02-01') }, old], ON).findings[0]?.unheld?.decision.by,
    ).toBe('OLD');
  });
});

describe('what the law limits', () => {
  const row = (outcome: string, accept?: boolean) => ({
    outcome,
    level: 'withhold' as const,
    words: 'x',
    accept,
  });
  const table = levelTable({
    table: 'levels',
    about: 'x',
    sayings: [{ says: 'prohibited', level: 'withhold', words: 'is prohibited', accept: false }],
    outcomes: [row('above-safety-limit'), row('above-every-maximum', false), row('same-herb', true)],
  } as Levels);

  it('is what the table of levels marks with accept: no', () => {
    expect(table.mayAccept('above-every-maximum')).toBe(false);
    expect(table.mayAccept('prohibited')).toBe(false);
    expect(table.mayAccept('above-safety-limit')).toBe(true);
    expect(table.mayAccept('same-herb')).toBe(true);
  });

  it('is whatever line of the shipped table is marked so, whichever rule comes to it', async () => {
    const shipped = readFileSync(new URL('../../monographs/reference/levels.yaml', import.meta.url), 'utf8');
    const marked = shipped.replace(
      'outcome: no-comparable-dose, level',
      'outcome: no-comparable-dose, accept: no, level',
    );
    expect(marked).not.toBe(shipped);
    const accept = async (levels: string) => {
      const files = { ...herb({ doses: 'none-read' }), ...tea(), 'monographs/reference/levels.yaml': levels };
      return (await judge({ formula: 'test-tea', person: WELL, files })).findings.map((f) => [
        f.rule,
        f.accept,
      ]);
    };
    expect(await accept(shipped)).toEqual([['dose', true]]);
    expect(await accept(marked)).toEqual([['dose', false]]);
  });

  it('is what a monograph says is prohibited, also beside a milder word of another source', async () => {
    const caution = (says: string, source: string) =>
      `{when: {condition: [asthma]}, says: ${says}, why: x, source: ${source}}`;
    const accept = async (...cautions: string[]) => {
      const files = { ...herb({ cautions: `[${cautions.join(', ')}]` }), ...tea() };
      const c = await judge({ formula: 'test-tea', person: { ...WELL, conditions: '[asthma]' }, files });
      return c.findings.map((f) => f.accept);
    };
    expect(await accept(caution('prohibited', 'a'))).toEqual([false]);
    expect(await accept(caution('contraindicated', 'a'), caution('prohibited', 'b'))).toEqual([false]);
    expect(await accept(caution('contraindicated', 'a'))).toEqual([true]);
  });

  it('is what a monograph says is prohibited in pregnancy', async () => {
    const accept = async (says: string) => {
      const files = { ...herb({ breastfeeding: `{says: ${says}, source: a}` }), ...tea() };
      const person = {
        ...WELL,
        sex: 'female',
        pregnant: 'no',
        breastfeeding: 'yes',
        trying_to_conceive: 'no',
      };
      return (await judge({ formula: 'test-tea', person, files })).findings.map((f) => f.accept);
    };
    expect(await accept('prohibited')).toEqual([false]);
    expect(await accept('not-recommended')).toEqual([true]);
  });
});

describe('a basis', () => {
  const WARNED = herb({
    cautions: '[{when: {medicine: [anticoagulants]}, says: caution, why: x, source: a}]',
  });
  const basis = async (files: Record<string, string>, medicines: string): Promise<[string, string][]> => {
    const c = await judge({
      formula: 'test-tea',
      person: { ...WELL, medicines },
      files: { ...tea(), ...files },
    });
    return c.findings.map((f) => [f.id, f.basis]);
  };

  it('stays for another medicine that is nothing to it, so that a decision does too', async () => {
    const alone = await basis(WARNED, '[warfarin]');
    expect(alone).toHaveLength(1);
    expect(await basis(WARNED, '[warfarin, paracetamol]')).toEqual(alone);
  });

  it.each([
    ['a caution', WARNED, 'warfarin'],
    ['a herb whose interactions were not read', herb({ interactions: 'not-read' }), 'digoxin'],
  ])('of %s changes when a medicine that was stopped is taken again', async (_, files, medicine) => {
    const [taken] = await basis(files, `[${medicine}]`);
    const [stopped] = await basis(files, `[{name: ${medicine}, stopped: 2026-04-25}]`);
    const [otherDay] = await basis(files, `[{name: ${medicine}, stopped: 2026-04-26}]`);
    expect(stopped?.[0]).toBe(taken?.[0]);
    expect(new Set([taken, stopped, otherDay].map((x) => x?.[1])).size).toBe(3);
  });
});

const gravity = (level: Verdict): number => (level === 'clear' ? LEVELS.length : LEVELS.indexOf(level));

/** Findings of every level and decisions about them, right and wrong in every way. */
const HERBS = ['a', 'b', 'c', 'd', 'e'];
const someFindings: fc.Arbitrary<Finding[]> = fc
  .uniqueArray(fc.constantFrom(...HERBS), { maxLength: 5 })
  .chain((herbs) =>
    fc.tuple(
      ...herbs.map((h) =>
        fc
          .tuple(fc.constantFrom(...LEVELS), fc.boolean())
          .map(([level, accept]) => found(level, h, { accept })),
      ),
    ),
  )
  .map((list) => [...list].sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level)));
const someDay = fc
  .constantFrom('2025-01-01', '2026-05-01', '2026-05-02', '2026-05-03', '2027-01-01')
  .map(day);
const decisionAbout = (
  findings: readonly Finding[],
  basis: 'right' | 'wrong' | 'either',
): fc.Arbitrary<Decision> =>
  fc
    .record({
      at: fc.nat(),
      elsewhere: fc.boolean(),
      wrong: basis === 'either' ? fc.boolean() : fc.constant(basis === 'wrong'),
      by: fc.constantFrom('AB', 'CD'),
      on: someDay,
      until: fc.option(someDay, { nil: undefined }),
    })
    .map(({ at, elsewhere, wrong, by, on, until }) => {
      const about = elsewhere ? undefined : findings[at % Math.max(1, findings.length)];
      const f = about ?? found('decide', 'nothing-of-it');
      return {
        finding: f.id,
        basis: wrong ? 'ffffffffffff' : f.basis,
        because: `x ${at % 3}`,
        by,
        on,
        until,
      };
    });
const judged = (basis: 'right' | 'wrong' | 'either' = 'either') =>
  someFindings.chain((findings) =>
    fc.tuple(fc.constant(findings), fc.array(decisionAbout(findings, basis), { maxLength: 8 })),
  );
const counted = (c: DecidedCheck) => c.findings.map((f) => [f.id, f.countsAs]);

describe('of decisions it holds that', () => {
  it('they remove no finding and change none', () => {
    fc.assert(
      fc.property(judged(), ([findings, decisions]) => {
        const c = decide(checked(...findings), decisions, ON);
        expect(c.findings.map(({ decision: _, unheld: __, countsAs: ___, ...f }) => f)).toEqual(findings);
      }),
    );
  });

  it('one of any other basis changes nothing that counts', () => {
    fc.assert(
      fc.property(judged('wrong'), ([findings, decisions]) => {
        const c = decide(checked(...findings), decisions, ON);
        expect(c.verdict).toBe(checked(...findings).verdict);
        expect(c.findings.map((f) => [f.countsAs, f.decision])).toEqual(findings.map((f) => [f.level, null]));
      }),
    );
  });

  it('their order does not matter', () => {
    fc.assert(
      fc.property(
        judged().chain(([f, d]) =>
          fc.tuple(fc.constant(f), fc.constant(d), fc.shuffledSubarray(d, { minLength: d.length })),
        ),
        ([findings, decisions, turned]) => {
          expect(decide(checked(...findings), turned, ON)).toEqual(
            decide(checked(...findings), decisions, ON),
          );
        },
      ),
    );
  });

  it('one more never makes the verdict graver', () => {
    fc.assert(
      fc.property(judged(), ([findings, decisions]) => {
        const [one, ...others] = decisions;
        const less = decide(checked(...findings), others, ON);
        const more = decide(checked(...findings), one ? [one, ...others] : others, ON);
        expect(gravity(more.verdict)).toBeGreaterThanOrEqual(gravity(less.verdict));
      }),
    );
  });

  it('a question, a note and a limit of the law stay what they are, and what was withheld stays a decision', () => {
    fc.assert(
      fc.property(judged('right'), ([findings, decisions]) => {
        const c = decide(checked(...findings), decisions, ON);
        for (const f of c.findings) {
          if (f.level === 'ask' || f.level === 'note' || !f.accept) expect(f.countsAs).toBe(f.level);
          if (f.level === 'withhold') expect(['withhold', 'decide']).toContain(f.countsAs);
        }
        expect(c.verdict).toBe(verdictOf(counted(c).map(([, level]) => level as Level)));
      }),
    );
  });

  it('whatever is accepted says by whom, when and why', () => {
    fc.assert(
      fc.property(judged('right'), ([findings, decisions]) => {
        for (const f of decide(checked(...findings), decisions, ON).findings)
          if (f.countsAs !== f.level) expect(decisions).toContain(f.decision);
      }),
    );
  });
});
