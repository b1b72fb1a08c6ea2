import { describe, expect, test } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { gram, millilitre } from '../../src/measure/units.ts';
import { gaugesOf } from '../../src/reports/gauge.ts';
import { textOf } from '../../src/reports/pieces.ts';
import {
  alignments,
  type Cell,
  exactly,
  figuresOn,
  numberIn,
  sentence,
  type Table,
  words,
} from '../../src/reports/sheet.ts';

const dose = given(quantity('3.6125', 'g'), 'herb in a dose');
const range = given({ low: quantity('1.5', 'g'), high: quantity('4', 'g') }, 'published dose');

describe('what a cell says', () => {
  test('words, figures, and sentences around figures', () => {
    expect(textOf(words('nettle leaf'))).toBe('nettle leaf');
    expect(textOf(words`for ${'river-tea'}, as ${words('written')}`)).toBe('for river-tea, as written');
    expect(textOf(dose)).toBe('3.61 g');
    expect(textOf([words('take'), dose, words('daily')])).toBe('take 3.61 g daily');
    expect(textOf(sentence`${dose} (of ${'nettle leaf'}), within ${range}.`)).toBe(
      '3.61 g (of nettle leaf), within 1.5 to 4 g.',
    );
  });

  test('a figure to its last digit', () => {
    expect(textOf(exactly(dose))).toBe('3.6125 g');
  });

  test('a bare number is converted to the unit of its column', () => {
    expect(textOf(numberIn(gram, given(quantity('250', 'mg'), 'x')))).toBe('0.25');
    expect(textOf(numberIn(gram, range))).toBe('1.5 to 4');
    expect(textOf(numberIn(gram, given({ low: null, high: quantity('8', 'g') }, 'x')))).toBe('up to 8');
    expect(textOf(numberIn(gram, dose, 'exact'))).toBe('3.6125');
    expect(() => textOf(numberIn(millilitre, dose))).toThrow();
  });
});

test('a number gets onto a sheet only inside a figure', () => {
  // @ts-expect-error a number does not fit between words
  words`takes ${3} g`;
  // @ts-expect-error nor does an exact number
  words`takes ${exact('3')} g`;
  // @ts-expect-error a figure belongs in a sentence, where the working can find it
  words`takes ${dose}`;
  // @ts-expect-error a sentence takes figures and no bare numbers
  sentence`takes ${3} g`;
  // @ts-expect-error a number is no cell
  const number: Cell = 3;
  // @ts-expect-error words are built by `words`
  const literal: Cell = { words: '3 g' };
  expect([number, literal]).toHaveLength(2);
});

test('figures are found in reading order, each once, wherever they stand', () => {
  const f = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((n) => given(quantity(n, 'g'), `figure ${n}`));
  const [one, two, three, four, five, six, seven, eight, nine] = f as [typeof dose, ...(typeof dose)[]] & {
    length: 9;
  };
  const found = figuresOn({
    title: 'All places',
    blocks: [
      { kind: 'lines', lines: [one as Cell, [words('and'), two as Cell]] },
      { kind: 'facts', facts: [{ label: 'Fact', value: exactly(three ?? dose) }] },
      {
        kind: 'table',
        columns: [{ head: 'A' }],
        rows: [[sentence`about ${four ?? dose}`]],
        total: [numberIn(gram, five ?? dose)],
      },
      {
        kind: 'section',
        title: 'Inner',
        blocks: [{ kind: 'list', items: [six as Cell, { line: seven as Cell, under: [eight as Cell] }] }],
      },
      { kind: 'finding', level: 'note', say: one, because: [nine as Cell], id: 'a/b/c' },
      { kind: 'lines', lines: gaugesOf(dose, [range]) },
    ],
  });
  expect(found).toEqual([...f, dose, range]);
});

describe('where a column stands', () => {
  const table = (rows: Table['rows'], align?: 'left' | 'right'): Table => ({
    kind: 'table',
    columns: [align === undefined ? { head: 'A' } : { head: 'A', align }],
    rows,
  });

  test('figures to the right, words to the left, unless it says otherwise', () => {
    expect(alignments(table([[dose], [exactly(dose)], [words('')]]))).toEqual(['right']);
    expect(alignments(table([[dose], [words('none')]]))).toEqual(['left']);
    expect(alignments(table([]))).toEqual(['left']);
    expect(alignments(table([[words('1:5')]], 'right'))).toEqual(['right']);
    expect(alignments(table([[dose]], 'left'))).toEqual(['left']);
  });
});
