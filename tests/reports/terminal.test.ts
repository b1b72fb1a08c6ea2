import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { gaugesOf } from '../../src/reports/gauge.ts';
import { type Block, type Sheet, sentence, words } from '../../src/reports/sheet.ts';
import { renderTerminal } from '../../src/reports/terminal.ts';

const herb = given(quantity('12', 'g'), 'herb');
const water = given(quantity('500', 'mL'), 'water');
const range = given({ low: quantity('1.5', 'g'), high: quantity('4', 'g') }, 'published dose');

const sheetOf = (...blocks: Block[]): Sheet => ({ title: 'River tea', blocks });
const plain = (sheet: Sheet, width = 80): string => renderTerminal(sheet, { width, colour: false });
/** What stands below the title and its rule. */
const body = (block: Block, width = 80): string =>
  plain(sheetOf(block), width).split('\n').slice(3, -1).join('\n');
const widest = (text: string): number => Math.max(...text.split('\n').map((line) => stringWidth(line)));

const longest: Sheet = {
  title: 'A tea of many herbs for a cold that will not go, written out for a narrow window',
  subtitle: 'Version 3, for a practice with a small screen and a great deal to say about each herb',
  blocks: [
    {
      kind: 'lines',
      lines: [
        [
          words('Take'),
          water,
          words('of it warm in small cups, spread over the whole of the day, with nothing added to it'),
        ],
      ],
    },
    {
      kind: 'facts',
      facts: [
        { label: 'Herb in each of the doses', value: [herb, words('of the mixture, weighed out dry')] },
      ],
    },
    {
      kind: 'table',
      columns: [
        { head: 'Herb' },
        { head: 'Weigh' },
        { head: 'Published' },
        { head: 'Beside it' },
        { head: 'Where from' },
      ],
      rows: gaugesOf(herb, [range]).map((gauge) => [
        words('meadowsweet, the flowering tops, cut and dried'),
        herb,
        range,
        gauge,
        words('EMA/HMPC 2011 (restated)'),
      ]),
      total: [words('Total'), herb],
    },
    {
      kind: 'list',
      items: [
        {
          line: words('pour the boiling water over the herbs and cover the pot'),
          mark: '[12]',
          under: [words('a source with a very long title that has to go over two lines at least')],
        },
      ],
    },
    {
      kind: 'section',
      title: 'One',
      blocks: [
        {
          kind: 'section',
          title: 'Two',
          blocks: [{ kind: 'lines', lines: [words('Supercalifragilistic'.repeat(4))] }],
        },
      ],
    },
    {
      kind: 'finding',
      level: 'withhold',
      say: sentence`each dose holds ${herb}, above ${range}, so it is not handed over`,
      because: [words('the allergy to salicylates is known')],
      source: 'EMA/HMPC, title, EMA/HMPC/434892/2010, 2011 (restated)',
      id: 'allergy/meadowsweet-herb/acetylsalicylic-acid',
      basis: 'a1b2',
    },
    { kind: 'caution', text: 'For trained practitioners: local law decides.' },
  ],
};

describe('a table', () => {
  test('has heads, a rule, numbers to the right, a total below a rule', () => {
    const block: Block = {
      kind: 'table',
      columns: [{ head: 'Herb' }, { head: 'Weigh' }, { head: 'Note' }],
      rows: [
        [words('thyme'), herb, words('dried')],
        [words('ginger root'), given(quantity('1.25', 'g'), 'ginger'), words('')],
      ],
      total: [words('Total'), given(quantity('13.25', 'g'), 'total')],
    };
    expect(body(block)).toBe(
      [
        'Herb           Weigh  Note',
        '---------------------------',
        'thyme           12 g  dried',
        'ginger root   1.25 g',
        '---------------------------',
        'Total        13.25 g',
      ].join('\n'),
    );
  });

  test('without rows is its heads and the rule', () => {
    expect(body({ kind: 'table', columns: [{ head: 'Herb' }, { head: 'Weigh' }], rows: [] })).toBe(
      'Herb  Weigh\n-----------',
    );
  });

  test('measures wide characters by the room that they take', () => {
    const block: Block = {
      kind: 'table',
      columns: [{ head: 'Herb' }, { head: 'Weigh' }],
      rows: [
        [words('\u91d1\u9280\u82b1\u91d1\u9280\u82b1'), herb],
        [words('\u{1f33f} mint'), herb],
        [words('nettle'), herb],
      ],
    };
    const lines = body(block).split('\n');
    expect(lines.slice(2).map((line) => stringWidth(line))).toEqual([19, 19, 19]);
    expect(lines.slice(2).every((line) => line.endsWith(' 12 g'))).toBe(true);
  });

  test('wraps long cells at words and keeps short columns whole', () => {
    const block: Block = {
      kind: 'table',
      columns: [{ head: 'Herb' }, { head: 'Weigh' }, { head: 'How' }],
      rows: [[words('thyme'), herb, words('pour 150 mL of boiling water over it')]],
    };
    expect(body(block, 40)).toBe(
      [
        'Herb   Weigh  How',
        '----------------------------------------',
        'thyme   12 g  pour 150 mL of boiling',
        '              water over it',
      ].join('\n'),
    );
  });

  test('that is too wide even so becomes one block a row, with every number beside its unit', () => {
    const row = [words('thyme'), herb, water, range, given(quantity('123456.75', 'mg'), 'x')];
    const block: Block = {
      kind: 'table',
      columns: ['Herb', 'Weigh', 'Water', 'Published', 'Amount'].map((head) => ({ head })),
      rows: [row, [words('nettle')]],
    };
    expect(body(block, 40)).toBe(
      [
        'Herb       thyme',
        'Weigh      12 g',
        'Water      500 mL',
        'Published  1.5 to 4 g',
        'Amount     123,456.8 mg',
        '',
        'Herb  nettle',
      ].join('\n'),
    );
  });

  test('a row with more cells than heads is a fault', () => {
    expect(() => body({ kind: 'table', columns: [{ head: 'A' }], rows: [[words('a'), words('b')]] })).toThrow(
      RangeError,
    );
  });

  test('takes time in proportion to its rows', () => {
    const timed = (count: number): number => {
      const rows = Array.from({ length: count }, (_, n) => [words(`herb ${n}`), herb, water]);
      const start = performance.now();
      const drawn = body({
        kind: 'table',
        columns: [{ head: 'Herb' }, { head: 'Weigh' }, { head: 'Water' }],
        rows,
      });
      const took = performance.now() - start;
      expect(drawn.split('\n')).toHaveLength(count + 2);
      return took;
    };
    timed(1000);
    // Eight times the rows: about 8 where the time is in proportion, above 20 where each row looks at those above.
    expect(timed(16000) / timed(2000)).toBeLessThan(14);
  });
});

describe('the other blocks', () => {
  test('the title is underlined, the subtitle stands below', () => {
    expect(plain({ title: 'River tea', subtitle: 'Version 3', blocks: [] })).toBe(
      'River tea\n=========\nVersion 3\n',
    );
  });

  test('facts line up', () => {
    const facts = [
      { label: 'Take', value: [water, words('warm')] },
      { label: 'Weigh', value: herb },
    ];
    expect(body({ kind: 'facts', facts })).toBe('Take   500 mL warm\nWeigh  12 g');
  });

  test('a list hangs beside its marks', () => {
    const items = [
      words('leave one plant in three standing where it grows'),
      { line: herb, mark: '[2]', under: [words('EMA/HMPC 2011')] },
    ];
    expect(body({ kind: 'list', items }, 40)).toBe(
      ['- leave one plant in three standing', '  where it grows', '[2] 12 g', '    EMA/HMPC 2011'].join('\n'),
    );
  });

  test('what is in a section is indented', () => {
    const inner: Block = {
      kind: 'section',
      title: 'Inner',
      blocks: [{ kind: 'lines', lines: [words('deep')] }],
    };
    expect(
      body({
        kind: 'section',
        title: 'Outer',
        blocks: [{ kind: 'lines', lines: [words('a'), words('b')] }, inner],
      }),
    ).toBe('Outer\n  a\n  b\n\n  Inner\n    deep');
  });

  test('a finding says its level first', () => {
    const finding: Block = {
      kind: 'finding',
      level: 'withhold',
      say: sentence`each dose holds ${herb} of meadowsweet, which she is allergic to`,
      because: [words('allergy: salicylates')],
      source: 'EMA/HMPC 2011 (restated)',
      id: 'allergy/meadowsweet-herb/salicylates',
      basis: 'a1b2',
    };
    expect(body(finding, 50)).toBe(
      [
        'WITHHOLD  each dose holds 12 g of meadowsweet,',
        '          which she is allergic to',
        '          - allergy: salicylates',
        '          Source: EMA/HMPC 2011 (restated)',
        '          allergy/meadowsweet-herb/salicylates',
        '          basis a1b2',
      ].join('\n'),
    );
  });

  test('of one that stands for several every id stands on a line of its own, and what was decided above them', () => {
    const finding: Block = {
      kind: 'finding',
      level: 'decide',
      say: words('said of both'),
      because: [],
      decided: [words('Accepted by AB on 2026-05-02: x')],
      id: 'stage/a/pregnant',
      basis: 'a1b2',
      also: [{ id: 'stage/b/pregnant', basis: 'c3d4' }],
    };
    expect(body(finding, 50)).toBe(
      [
        'DECIDE    said of both',
        '          Accepted by AB on 2026-05-02: x',
        '          stage/a/pregnant basis a1b2',
        '          stage/b/pregnant basis c3d4',
      ].join('\n'),
    );
  });

  test('what is to be copied stands as it is, but for what a terminal acts upon', () => {
    const lines = ['decisions:', '  - {finding: x,  basis: y}', '\u001b[31m'];
    expect(body({ kind: 'copy', lines }, 40)).toBe('decisions:\n  - {finding: x,  basis: y}\n\ufffd[31m');
  });

  test('empty blocks leave no gap', () => {
    const empty: Block[] = [
      { kind: 'lines', lines: [] },
      { kind: 'facts', facts: [] },
      { kind: 'list', items: [] },
    ];
    expect(plain(sheetOf(...empty))).toBe('River tea\n=========\n');
  });
});

describe('styles', () => {
  test('without colour there is not one escape, with it there are only bold and dim', () => {
    expect(plain(longest)).not.toContain('\u001b');
    const styled = renderTerminal(longest, { colour: true });
    expect(new Set(styled.match(/\u001b\[\d+m/g))).toEqual(new Set(['\u001b[1m', '\u001b[2m', '\u001b[22m']));
  });

  test('carry no meaning: the text is the same without them', () => {
    expect(renderTerminal(longest, { colour: true }).replace(/\u001b\[\d+m/g, '')).toBe(plain(longest));
  });
});

describe('width', () => {
  test.each([40, 41, 50, 64, 80, 120])('no line is longer than %i columns', (width) => {
    expect(widest(plain(longest, width))).toBeLessThanOrEqual(width);
  });

  test('is 80 unless it is given, and never less than 40', () => {
    expect(renderTerminal(longest, { colour: false })).toBe(plain(longest, 80));
    expect(plain(longest, 10)).toBe(plain(longest, 40));
  });

  test('wide characters are counted as the terminal counts them', () => {
    expect(widest(body({ kind: 'lines', lines: [words('\u4e2d'.repeat(100))] }, 41))).toBe(40);
  });

  test('plain words give plain ASCII', () => {
    expect(plain(longest)).toMatch(/^[\x20-\x7e\n]*$/);
  });

  test('no figure is parted from its unit at any width', () => {
    for (let width = 40; width <= 80; width++) {
      const drawn = plain(longest, width);
      expect(drawn.match(/500 mL/g)).toHaveLength(1);
      expect(drawn.match(/12 g/g)).toHaveLength(4);
      expect(drawn.match(/1\.5 to 4 g/g)).toHaveLength(2);
    }
  });

  test('holds for any text, which can do nothing to the terminal', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 90 }),
      fc.string({
        unit: fc.constantFrom(
          '\u001b[2J',
          '\u009b',
          '\u202e',
          '\n',
          ' ',
          '3 ',
          'g ',
          '\u4e2d',
          '\u{1f33f}',
          'word',
          '/',
          '\u00a0',
        ),
        maxLength: 40,
      }),
    );
    fc.assert(
      fc.property(
        fc.array(text, { minLength: 5, maxLength: 5 }),
        fc.integer({ min: 40, max: 90 }),
        (texts, width) => {
          const [a = '', b = '', c = '', d = '', e = ''] = texts;
          const drawn = plain(
            {
              title: a,
              blocks: [
                { kind: 'lines', lines: [words(b)] },
                { kind: 'facts', facts: [{ label: c, value: words(d) }] },
                {
                  kind: 'table',
                  columns: [{ head: 'A' }, { head: 'B' }, { head: 'C' }],
                  rows: [
                    [words(a), words(b), herb],
                    [words(c), words(d), words(e)],
                  ],
                },
                { kind: 'finding', level: 'note', say: words(e), because: [words(a)], id: b },
              ],
            },
            width,
          );
          expect(widest(drawn)).toBeLessThanOrEqual(width);
          expect(drawn).not.toMatch(
            /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/,
          );
        },
      ),
    );
  });
});
