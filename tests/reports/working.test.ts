import { describe, expect, test } from 'vitest';
import { type Cited, given, worked } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { renderMarkdown } from '../../src/reports/markdown.ts';
import { figuresOn, type Sheet, words } from '../../src/reports/sheet.ts';
import { renderTerminal } from '../../src/reports/terminal.ts';
import { workingBlocks } from '../../src/reports/working.ts';

const restated: Cited = {
  key: 'hmpc',
  body: 'EMA/HMPC',
  title: 'Herbal monograph on Filipendula ulmaria',
  ref: 'EMA/HMPC/434892/2010',
  year: '2011',
  reading: 'restated',
};
const herb = given(quantity('12', 'g'), 'herb in the pot');
const take = given(quantity('150', 'mL'), 'taken at once');
const pot = given(quantity('500', 'mL'), 'strained', { ...restated, reading: 'memory' });
const dose = worked(quantity('3.6', 'g'), 'herb in a dose', '{} x {} / {}', [herb, take, pot]);
const published = given(
  { low: quantity('1.5', 'g'), high: quantity('6', 'g') },
  'published single dose',
  restated,
);

const sheet: Sheet = {
  title: 'Dose',
  blocks: [{ kind: 'lines', lines: [[words('each dose holds'), dose], published] }],
};
const working: Sheet = { title: 'W', blocks: workingBlocks(figuresOn(sheet)) };

describe('the working of a sheet', () => {
  test('is one numbered line a step, with the source of what was published', () => {
    expect(renderTerminal(working, { width: 100, colour: false })).toBe(
      [
        ...['W', '=', '', 'Working'],
        '  [1] herb in the pot: 12 g',
        '  [2] taken at once: 150 mL',
        '  [3] strained: 500 mL',
        '      EMA/HMPC, Herbal monograph on Filipendula ulmaria, EMA/HMPC/434892/2010, 2011 (from memory,',
        '      not read)',
        '  [4] herb in a dose: 12 g [1] x 150 mL [2] / 500 mL [3] = 3.6 g',
        '  [5] published single dose: 1.5 to 6 g',
        '      EMA/HMPC, Herbal monograph on Filipendula ulmaria, EMA/HMPC/434892/2010, 2011 (restated)',
        '',
      ].join('\n'),
    );
  });

  test('keeps a reference beside its figure where a line wraps', () => {
    const narrow = renderTerminal(working, { width: 40, colour: false });
    expect(narrow).toContain('  [4] herb in a dose: 12 g [1] x\n      150 mL [2] / 500 mL [3] = 3.6 g\n');
  });

  test('reads the same in Markdown', () => {
    expect(renderMarkdown(working)).toContain(
      '- \\[4\\] herb in a dose: 12 g \\[1\\] x 150 mL \\[2\\] / 500 mL \\[3\\] = 3.6 g',
    );
  });

  test('of no figures is nothing', () => {
    expect(workingBlocks([])).toEqual([]);
  });
});
