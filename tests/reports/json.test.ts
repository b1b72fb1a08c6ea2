import { describe, expect, test } from 'vitest';
import { exact, one } from '../../src/measure/exact.ts';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { gram } from '../../src/measure/units.ts';
import { envelope, machineForm } from '../../src/reports/json.ts';
import { exactly, sentence, words } from '../../src/reports/sheet.ts';

const grams = quantity('3.6', 'g');
const form = { value: '3.6', unit: 'g' };

describe('the machine form', () => {
  test('of a quantity is decimal text and a UCUM code', () => {
    expect(machineForm(grams)).toEqual(form);
    expect(machineForm(quantity('1', '[pt_br]'))).toEqual({ value: '1', unit: '[pt_br]' });
    expect(machineForm(gram)).toBe('g');
  });

  test('of a number that does not end has 12 significant digits', () => {
    expect(machineForm(one.div(3))).toBe('0.333333333333');
    expect(machineForm(quantity(exact(200).div(3), 'g'))).toEqual({ value: '66.6666666667', unit: 'g' });
  });

  test('of a range has null for an open end', () => {
    expect(machineForm({ low: null, high: grams })).toEqual({ low: null, high: form });
    expect(machineForm({ low: exact(1), high: exact(3) })).toEqual({ low: '1', high: '3' });
  });

  test('of a figure is its value, however it is shown; its working stays behind', () => {
    const figure = given(grams, 'herb');
    expect(machineForm(figure)).toEqual(form);
    expect(machineForm(exactly(figure))).toEqual(form);
    expect(machineForm(given({ low: grams, high: null }, 'published'))).toEqual({ low: form, high: null });
  });

  test('of words and sentences is their text', () => {
    expect(machineForm({ say: words('not asked') })).toEqual({ say: 'not asked' });
    expect(machineForm(sentence`holds ${given(grams, 'herb')} of thyme`)).toBe('holds 3.6 g of thyme');
  });

  test('goes down through lists, maps and objects, and leaves out what is undefined', () => {
    const deep = {
      a: [{ b: grams, c: undefined }],
      d: new Map([['e', exact('0.5')]]),
      f: new Set([true, null, 7]),
    };
    expect(machineForm(deep)).toEqual({ a: [{ b: form }], d: { e: '0.5' }, f: [true, null, 7] });
  });

  test.each([
    Number.NaN,
    Number.POSITIVE_INFINITY,
    exact('NaN'),
    exact(1).div(0),
    quantity(exact(1).div(0), 'g'),
    { low: null, high: quantity(exact('NaN'), 'g') },
  ])('refuses %s, which would read as null', (value) => {
    expect(() => machineForm({ value })).toThrow(RangeError);
  });

  test('refuses what JSON has no word for', () => {
    expect(() => machineForm({ run: () => 1 })).toThrow(TypeError);
    expect(() => machineForm({ big: 1n })).toThrow(TypeError);
  });

  test('a key that means something to JavaScript is a key like any other', () => {
    const own = machineForm(JSON.parse('{"__proto__": {"a": 1}}'));
    expect(JSON.stringify(own)).toBe('{"__proto__":{"a":1}}');
  });
});

describe('the envelope', () => {
  test('is one line with its keys in order', () => {
    expect(envelope('convert', { value: '28.4', unit: 'g' })).toBe(
      '{"scruple":1,"command":"convert","result":{"value":"28.4","unit":"g"},"findings":[],"problems":[]}\n',
    );
  });

  test('carries findings and problems', () => {
    const line = envelope('check', null, [{ id: 'a/b/c', say: words('say') }], [{ file: 'x.yaml', line: 3 }]);
    expect(JSON.parse(line)).toEqual({
      ...{ scruple: 1, command: 'check', result: null },
      ...{ findings: [{ id: 'a/b/c', say: 'say' }], problems: [{ file: 'x.yaml', line: 3 }] },
    });
  });

  test('stays one line of plain characters, whatever the text, and loses none of it', () => {
    const text = 'a\nb\u2028c\u0085d\u001b[2Je\u009bf\u202eg';
    const line = envelope('show', { text });
    expect(line).toMatch(/^[\x20-\x7e]*\n$/);
    expect(JSON.parse(line).result.text).toBe(text);
  });
});
