import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { refusedUnit } from '../../src/measure/refused.ts';
import { emptyFolder, json, practiceFolder, removeFolders, run } from './scruple.ts';

afterAll(removeFolders);

/** No folder of a practice lies here or above. */
const nowhere = emptyFolder();
const converted = (from: string, to: string, ...more: string[]) =>
  json(['convert', from, to, ...more], { cwd: nowhere }).result;

describe('measures that law defines', () => {
  test.each([
    // Weights and Measures Act 1985, Schedule 1: the gallon is 4.54609 dm3, the pint an eighth of it.
    ['1 imp pint', 'mL', '568.26125'],
    ['1 imp gallon', 'L', '4.54609'],
    // NIST Handbook 44, Appendix C: the US gallon is 231 cubic inches.
    ['1 US pint', 'mL', '473.176473'],
    // International yard and pound agreement of 1959: the grain is 64.79891 mg, the ounce 28.349523125 g.
    ['1 grain', 'mg', '64.79891'],
    ['1 oz av', 'g', '28.349523125'],
    ['20 grain', 'scruple', '1'],
  ])('%s is %s %s', (from, to, value) => {
    expect(converted(from, to)).toMatchObject({ value });
  });

  test('codes of UCUM go in and come out', () => {
    expect(converted('2 [pt_br]', 'mL')).toEqual({ value: '1136.5225', unit: 'mL' });
    expect(converted('1 [sc_ap]', '[gr]')).toEqual({ value: '20', unit: '[gr]' });
    expect(converted('1 imp pint', 'US pint').unit).toBe('[pt_us]');
  });

  test('the sheet says what defines the measure', () => {
    const { code, out } = run(['convert', '1 imp pint', 'mL'], { cwd: nowhere });
    expect(code).toBe(0);
    expect(out).toContain('1 imp pint  568.26125 mL');
    expect(out).toContain('Defined by: ');
  });
});

test('a fraction that does not end is cut to twelve figures on the sheet', () => {
  const { out } = run(['convert', '1/3 L', 'mL'], { cwd: nowhere });
  expect(out).toContain('0.333333333333 L  333.333333333 mL');
});

describe('a word that several measures share', () => {
  test('is refused, and both are named with their size', () => {
    const { code, out, err } = run(['convert', '1 pint', 'mL'], { cwd: nowhere });
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('imp pint (568.26125 mL)');
    expect(err).toContain('US pint (473.176473 mL)');
  });

  test('means what the practice has settled', () => {
    const folder = practiceFolder();
    expect(json(['convert', '1 pint', 'mL'], { cwd: folder }).result.value).toBe('568.26125');
    writeFileSync(join(folder, 'practice.yaml'), 'settled: {pint: US}\n');
    expect(json(['convert', '1 pint', 'mL'], { cwd: folder }).result.value).toBe('473.176473');
    expect(json(['convert', '1 pint', 'mL', '--folder', folder], { cwd: nowhere }).result.value).toBe(
      '473.176473',
    );
  });
});

test("the practice's own measures convert, and the sheet calls them a custom", () => {
  const folder = practiceFolder();
  expect(json(['convert', '2 droppers', 'mL'], { cwd: folder }).result).toEqual({ value: '1.6', unit: 'mL' });
  expect(json(['convert', '100 mL', 'house cup'], { cwd: folder }).result.value).toBe('0.5');
  expect(run(['convert', '2 droppers', 'mL'], { cwd: folder }).out).toContain('This measure is a custom');
  expect(run(['convert', '2 droppers', 'mL'], { cwd: nowhere }).code).toBe(2);
});

describe('from mass to volume', () => {
  test('needs a density, and says what to add', () => {
    const { code, err } = run(['convert', '10 g', 'mL'], { cwd: nowhere });
    expect(code).toBe(2);
    expect(err).toMatch(/density.*--density "0\.92 g\/mL" or --liquid water/);
  });

  test('goes by the density given, or that of a liquid known here with its source', () => {
    expect(converted('9.2 g', 'mL', '--density', '0.92 g/mL')).toEqual({ value: '10', unit: 'mL' });
    expect(converted('100 mL', 'g', '--density', '0.92 g/mL')).toEqual({ value: '92', unit: 'g' });
    const honey = run(['convert', '100 mL', 'g', '--liquid', 'honey'], { cwd: nowhere });
    expect(honey.out).toContain('140 g');
    expect(honey.out).toContain('British Pharmaceutical Codex');
  });

  test.each([
    [['--density', '0.92'], /--density "0\.92" has no unit: write such as 0\.92 g\/mL/],
    [['--density', '920 mL'], /--density "mL" measures volume/],
    [['--density', '0 g/mL'], /density must be above 0/],
    [['--liquid', 'hony'], /did you mean honey\?/],
  ])('%j is refused with what to write', (more, says) => {
    const { code, err } = run(['convert', '10 g', 'mL', ...more], { cwd: nowhere });
    expect(code).toBe(2);
    expect(err).toMatch(says);
  });
});

describe('drops', () => {
  test('have no size until someone has counted them', () => {
    const { code, err } = run(['convert', '20 drops', 'mL'], { cwd: nowhere });
    expect(code).toBe(2);
    expect(err).toMatch(/a drop is no fixed measure: count .*--dropper "35 drops\/mL"/);
  });

  test('convert by the count of that dropper', () => {
    expect(converted('70 drops', 'mL', '--dropper', '35 drops/mL').value).toBe('2');
    expect(converted('2 mL', 'drops', '--dropper', '35 drops/mL')).toEqual({ value: '70', unit: '[drp]' });
    expect(run(['convert', '20 drops', 'mL', '--dropper', '35'], { cwd: nowhere }).err).toMatch(
      /--dropper "35" has no unit/,
    );
  });
});

describe('refused forms reach the user with what to write instead', () => {
  test.each([
    ['1 T', 'tbsp or tsp'],
    ['1 t', 'tbsp or tsp'],
    ['5 gr', 'grain or g'],
    ['5 grs', 'grain or g'],
    ['5 cc', 'write mL'],
    ['5 ccs', 'write mL'],
    ['5 c.c.', 'write mL'],
    ['5 ccm', 'write mL'],
    ['5 cm3', 'write mL'],
    ['5 cm\u00b3', 'write mL'],
    ['2 stone', 'write kg'],
    ['2 stones', 'write kg'],
    ['1 \u0292', 'apothecary sign'],
    ['1 \u01b7', 'apothecary sign'],
    ['1 \u2125', 'apothecary sign'],
    ['1 \u2108', 'apothecary sign'],
    ['1 \u2114', 'apothecary sign'],
    ['1 \u2112', 'apothecary sign'],
    ['1 \u2133', 'apothecary sign'],
    ['\u2125 1', 'apothecary sign'],
    ['100 IU', 'misread'],
    ['100 U', 'misread'],
  ])('%s', (from, says) => {
    const { code, out, err } = run(['convert', from, 'mL'], { cwd: nowhere });
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(/^command line: /);
    expect(err).toContain(says);
  });

  test('as the unit to convert to as well, in the very words of the table', () => {
    for (const unit of ['gr', 'cc', 'T', 'stone', 'IU'])
      expect(run(['convert', '1 g', unit], { cwd: nowhere }).err).toBe(
        `command line: ${refusedUnit(unit)}\n`,
      );
  });

  test.each([
    ['1,5 g', /"1,5" has a comma/],
    ['.5 g', /write 0\.5/],
    ['1e400 g', /exponent form/],
    ['NaN g', /not a number/],
    ['-1 g', /"-1 g" is below nothing/],
    ['g', /does not start with a figure/],
    ['', /nothing is written/],
    ['1', /has no unit/],
    ['1 furlong', /not a known unit/],
    ['1 gramm', /did you mean gram/],
    ['1-2 g', /is a range: write one figure/],
    ['1 g', /measures/],
  ])('%j', (from, says) => {
    const { code, err } = run(['convert', from, from === '1 g' ? 'days' : 'mL'], { cwd: nowhere });
    expect(code).toBe(2);
    expect(err).toMatch(says);
    expect(err).not.toMatch(/\n\s+at /);
  });
});
