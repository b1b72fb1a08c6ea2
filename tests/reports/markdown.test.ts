import fc from 'fast-check';
import type { Nodes, Root, Table as TableNode } from 'mdast';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, test } from 'vitest';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { cleanLine } from '../../src/reports/escape.ts';
import { gaugesOf, gaugeText } from '../../src/reports/gauge.ts';
import { renderMarkdown } from '../../src/reports/markdown.ts';
import { type Block, type Line, words } from '../../src/reports/sheet.ts';

const HOSTILE = [
  'a | b || c',
  'ends in a backslash \\',
  'ends in two \\\\',
  'backslash and bar \\|',
  '<script>alert(1)</script>',
  '<!-- hidden -->',
  '&lt; &amp; &#124;',
  '`code` and ``` fence',
  '[link](javascript:alert(1))',
  '![image](data:image/png;base64,AAAA)',
  '<javascript:alert(1)>',
  'https://example.org/ and www.example.org and ftp://example.org',
  'someone@example.org',
  '=HYPERLINK("x")',
  '+1+1',
  '-1-1',
  '@SUM(A1:A9)',
  '  =leading blanks',
  '# not a heading',
  '## nor this',
  '#',
  'nor this ##',
  '- not a list',
  '-',
  '+',
  '1. not a list',
  '2)',
  '> not a quotation',
  '---',
  '***',
  '===',
  '~~~',
  '    not code',
  '[^1] not a note',
  '[ref]: https://example.org',
  '- [ ] no box',
  '**not** __bold__ *nor* _this_ ~~struck~~',
  '| --- | --- |',
  'two\nlines\r\nor three',
  'right \u202eto left\u202c and \u200f mark',
  '\u{1f33f} \u{1f469}\u200d\u{1f52c} \u{1f1eb}\u{1f1f7}',
  '\u4e2d\u83ef\u4eba\u6c11',
  'nul \u0000 escape \u001b[31m',
  '$E=mc^2$',
  '',
];

const parse = (markdown: string): Root => unified().use(remarkParse).use(remarkGfm).parse(markdown);

/** What a reader sees, without the word joiners that keep characters apart. */
function textIn(node: Nodes): string {
  if ('value' in node) return node.value.replaceAll('\u2060', '');
  return 'children' in node ? node.children.map(textIn).join('') : '';
}

const typesIn = (node: Nodes): string[] => [
  node.type,
  ...('children' in node ? node.children.flatMap(typesIn) : []),
];
const seen = (text: string): string => cleanLine(text).trim();
const blocksOf = (...blocks: Block[]): Root => parse(renderMarkdown({ title: 'T', blocks }));

describe('a table', () => {
  const tableOf = (rows: readonly (readonly string[])[]): TableNode => {
    const root = blocksOf({
      kind: 'table',
      columns: (rows[0] ?? []).map((head) => ({ head })),
      rows: rows.map((row) => row.map((cell) => words(cell))),
    });
    expect(root.children.map((node) => node.type)).toEqual(['heading', 'table']);
    return root.children[1] as TableNode;
  };

  const survives = (rows: readonly (readonly string[])[]): void => {
    const table = tableOf(rows);
    const read = table.children.map((row) => row.children.map(textIn));
    expect(read).toEqual([rows[0]?.map(seen), ...rows.map((row) => row.map(seen))]);
    expect(new Set(typesIn(table))).toEqual(
      new Set(['table', 'tableRow', 'tableCell', ...(read.flat().some((t) => t) ? ['text'] : [])]),
    );
  };

  test('keeps its shape and its text, whatever is in the cells', () => {
    survives(HOSTILE.map((text) => [text, 'between', text]));
  });

  test('keeps them for any text at all', () => {
    const mean = fc.string({
      unit: fc.constantFrom(...'|\\`*_{}[]()<>#+-=@~!&;:/.w1 a"$\n\u202e\u{1f33f}\u4e2d'),
      maxLength: 14,
    });
    const cell = fc.oneof(mean, fc.string({ unit: 'binary', maxLength: 14 }));
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 4 }), (rows) => survives(rows)),
      { numRuns: 300 },
    );
  });

  test('without rows is its heads', () => {
    const root = blocksOf({ kind: 'table', columns: [{ head: 'Herb' }, { head: 'Weigh' }], rows: [] });
    expect((root.children[1] as TableNode).children.map((row) => row.children.map(textIn))).toEqual([
      ['Herb', 'Weigh'],
    ]);
  });

  test('numbers stand to the right, the total is the last row, a short row is filled up', () => {
    const herb = given(quantity('12', 'g'), 'herb');
    const root = blocksOf({
      kind: 'table',
      columns: [{ head: 'Herb' }, { head: 'Weigh' }],
      rows: [[words('thyme'), herb], [words('nettle')]],
      total: [words('Total'), herb],
    });
    const table = root.children[1] as TableNode;
    expect(table.align).toEqual([null, 'right']);
    expect(table.children.map((row) => row.children.map(textIn))).toEqual([
      ['Herb', 'Weigh'],
      ['thyme', '12 g'],
      ['nettle', ''],
      ['Total', '12 g'],
    ]);
  });

  test('a row with more cells than heads is a fault', () => {
    expect(() =>
      blocksOf({ kind: 'table', columns: [{ head: 'A' }], rows: [[words('a'), words('b')]] }),
    ).toThrow(RangeError);
  });

  test('a gauge keeps its marks in their places', () => {
    const range = given({ low: quantity('2', 'g'), high: quantity('4', 'g') }, 'published');
    const gauges = gaugesOf(given(quantity('3', 'g'), 'dose'), [range]);
    const root = blocksOf({ kind: 'table', columns: [{ head: 'Beside' }], rows: [gauges] });
    const cell = (root.children[1] as TableNode).children[1]?.children[0];
    expect(cell?.children.map((node) => node.type)).toEqual(['inlineCode']);
    expect(cell && textIn(cell)).toBe(gauges.map((gauge) => gaugeText(gauge)).join(' '));
  });
});

describe('every other block keeps hostile text as text', () => {
  const nonEmpty = HOSTILE.filter((text) => seen(text) !== '');

  test.each(nonEmpty)('%j', (text) => {
    const line: Line = words(text);
    const root = parse(
      renderMarkdown({
        title: text,
        subtitle: text,
        blocks: [
          { kind: 'lines', lines: [line, line] },
          { kind: 'facts', facts: [{ label: text, value: line }] },
          { kind: 'list', items: [line, { line, mark: '[1]', under: [line] }] },
          { kind: 'section', title: text, blocks: [{ kind: 'lines', lines: [line] }] },
          {
            kind: 'finding',
            level: 'decide',
            say: line,
            because: [line],
            source: text,
            id: text,
            basis: text,
          },
          { kind: 'caution', text },
        ],
      }),
    );
    expect(root.children.map((node) => node.type)).toEqual([
      ...['heading', 'paragraph', 'paragraph', 'paragraph', 'list', 'list'],
      ...['heading', 'paragraph', 'paragraph', 'list', 'blockquote'],
    ]);
    const allowed = [
      'root',
      'heading',
      'paragraph',
      'text',
      'list',
      'listItem',
      'strong',
      'break',
      'blockquote',
    ];
    expect(typesIn(root).filter((type) => !allowed.includes(type))).toEqual([]);
    const t = seen(text);
    expect(root.children.map(textIn)).toEqual([
      t,
      t,
      t,
      t,
      `${t}: ${t}`,
      `${t}[1] ${t}${t}`,
      t,
      t,
      `DECIDE ${t}`,
      `${t}${seen(`Source: ${text}`)}${t}${seen(`basis ${text}`)}`,
      t,
    ]);
  });
});

test('a finding is its level and sentence, and a list of what stands behind it', () => {
  const finding: Block = {
    kind: 'finding',
    level: 'ask',
    say: words('Is she pregnant?'),
    because: [words('not asked')],
    source: 'EMA/HMPC 2011 (restated)',
    id: 'unanswered/thyme-herb/pregnant',
    basis: 'a1b2',
  };
  expect(renderMarkdown({ title: 'T', blocks: [finding, finding] })).toBe(
    `# T\n${`
**ASK** Is she pregnant?

- not asked
- Source: EMA/HMPC 2011 (restated)
- unanswered/thyme-herb/pregnant
- basis a1b2
`.repeat(2)}`,
  );
});

test('what is to be copied is code, and nothing in it ends the code', () => {
  const lines = ['decisions:', '  - {because: "```` and `x`"}', '```', '<b>', '# no heading'];
  const root = blocksOf({ kind: 'copy', lines }, { kind: 'lines', lines: [words('after')] });
  expect(root.children.map((node) => node.type)).toEqual(['heading', 'code', 'paragraph']);
  expect(textIn(root.children[1] as Nodes)).toBe(lines.join('\n'));
});

test('sections go down one heading each, and no deeper than six', () => {
  const nested = [1, 2, 3, 4, 5, 6, 7].reduce<Block[]>(
    (blocks, n) => [{ kind: 'section', title: `s${n}`, blocks }],
    [],
  );
  const depths = parse(renderMarkdown({ title: 'T', blocks: nested })).children.map(
    (node) => node.type === 'heading' && node.depth,
  );
  expect(depths).toEqual([1, 2, 3, 4, 5, 6, 6, 6]);
});

test('empty blocks leave no trace', () => {
  const blocks: Block[] = [
    { kind: 'lines', lines: [] },
    { kind: 'list', items: [] },
    { kind: 'facts', facts: [] },
  ];
  expect(renderMarkdown({ title: 'T', blocks })).toBe('# T\n');
});
