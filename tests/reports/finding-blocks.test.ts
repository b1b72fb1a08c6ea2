import { describe, expect, it } from 'vitest';
import { type Decision, decide } from '../../src/checking/deciding.ts';
import { type Finding, finding, type Sentence } from '../../src/checking/finding.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { type Cited, given, worked } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { cite } from '../../src/reports/cite.ts';
import { findingBlocks } from '../../src/reports/finding-blocks.ts';
import { textOf } from '../../src/reports/pieces.ts';
import { must } from '../must.ts';

const ON = must(parseDate('2026-05-02'));
const SOURCE: Cited = { key: 'a', body: 'Body A', title: 'A', reading: 'original' };

const found = (herb: string, say: Sentence, more: Partial<Finding> & { subject?: string } = {}): Finding => ({
  ...finding({
    rule: 'stage',
    herb,
    subject: more.subject ?? 'pregnant',
    level: 'decide',
    say,
    facts: { herb },
  }),
  ...more,
});
const blocks = (findings: readonly Finding[], decisions: readonly Decision[] = []) =>
  findingBlocks(
    decide({ verdict: 'decide', findings }, decisions, ON).findings,
    new Map(findings.flatMap((f) => (f.source ? [[cite(f.source), 'a'] as const] : []))),
  );
const printed = (...args: Parameters<typeof blocks>): [string, string[]][] =>
  blocks(...args).map((b) => [textOf(b.say), [b.id, ...(b.also ?? []).map((x) => x.id)]]);

describe('findings of one rule about one subject', () => {
  const barred = (herb: string, more = {}) => found(herb, [`${herb} is not recommended in pregnancy`], more);

  it('print as one with the herbs listed, where they say the same', () => {
    expect(printed(['a-leaf', 'b-root', 'c-bark'].map((h) => barred(h)))).toEqual([
      [
        'each of a-leaf, b-root and c-bark is not recommended in pregnancy',
        ['stage/a-leaf/pregnant', 'stage/b-root/pregnant', 'stage/c-bark/pregnant'],
      ],
    ]);
  });

  it('leave a sentence that names all of them as it is', () => {
    const both = (h: string) => found(h, ['each of a-leaf and b-root brings drowsiness']);
    expect(printed(['a-leaf', 'b-root'].map(both))).toEqual([
      ['each of a-leaf and b-root brings drowsiness', ['stage/a-leaf/pregnant', 'stage/b-root/pregnant']],
    ]);
  });

  it('name the herbs as the sentence takes them', () => {
    const about = (h: string) => found(h, [`nothing was read about ${h} in pregnancy`]);
    expect(printed(['a-leaf', 'b-root'].map(about))[0]?.[0]).toBe(
      'nothing was read about a-leaf and b-root in pregnancy',
    );
    const silent = (h: string) => found(h, ['nothing was read in pregnancy']);
    expect(printed(['a-leaf', 'b-root'].map(silent))[0]?.[0]).toBe(
      'nothing was read in pregnancy (of a-leaf and b-root)',
    );
    const longer = (h: string) => found(h, [`${h} and ${h}-extract may not be used`]);
    expect(printed(['a-leaf', 'b-root'].map(longer))).toHaveLength(2);
  });

  it.each<[string, Partial<Finding> & { subject?: string; say?: Sentence }]>([
    ['level', { level: 'note' }],
    ['subject', { subject: 'breastfeeding' }],
    ['sentence', { say: ['b-root is to be avoided in pregnancy'] }],
    ['source', { source: SOURCE }],
    ['rule', { rule: 'caution', id: 'caution/b-root/pregnant' }],
  ])('print apart where another %s is meant', (_, more) => {
    expect(printed([barred('a-leaf'), barred('b-root', more)])).toHaveLength(2);
  });

  it('print apart where only one of them was decided', () => {
    const [a, b] = [barred('a-leaf'), barred('b-root')];
    const accept = (f: Finding): Decision => ({
      finding: f.id,
      basis: f.basis,
      because: 'x',
      by: 'AB',
      on: ON,
    });
    expect(printed([a, b], [accept(a)])).toHaveLength(2);
    expect(printed([a, b], [accept(a), accept(b)])).toHaveLength(1);
  });

  it('print apart where the same figure came about by another sum', () => {
    const dose = (h: string, whole: string) => {
      const from = given(quantity(whole, 'g'), 'herb in the pot');
      return found(h, [`${h}:`, worked(quantity('2', 'g'), 'in a dose', '{} / 2', [from])]);
    };
    expect(printed([dose('a-leaf', '4'), dose('b-root', '4')])).toHaveLength(1);
    expect(printed([dose('a-leaf', '4'), dose('b-root', '5')])).toHaveLength(2);
  });

  it('about no herb are never put together', () => {
    const formula = (subject: string) => ({
      ...found('x', ['x'], { subject }),
      herb: null,
      id: `r/formula/${subject}`,
    });
    expect(printed([formula('a'), formula('b')])).toHaveLength(2);
  });
});

describe('the sum under a finding', () => {
  const pot = given(quantity('12', 'g'), 'herb in the pot');
  const dose = worked(quantity('4', 'g'), 'herb in a dose', '{} / 3', [pot]);

  it('is that of each figure that was worked out, once', () => {
    const [b] = blocks([found('a-leaf', ['a-leaf:', dose, 'and', dose, 'of', pot])]);
    expect(b?.because.map(textOf)).toEqual(['herb in a dose: 12 g / 3 = 4 g']);
  });

  it('is the sum itself where the figure only stands in another unit', () => {
    const inMg = worked(quantity('4000', 'mg'), 'herb in a dose', '{}', [dose]);
    const [b] = blocks([found('a-leaf', ['a-leaf:', inMg])]);
    expect(b?.because.map(textOf)).toEqual(['herb in a dose: 12 g / 3 = 4 g']);
  });

  it('is none where a figure was published', () => {
    expect(blocks([found('a-leaf', ['a-leaf:', pot])])[0]?.because).toEqual([]);
  });
});
