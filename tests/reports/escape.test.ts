import { describe, expect, test } from 'vitest';
import { cleanJson, cleanLine, markdownText } from '../../src/reports/escape.ts';

describe('a line of text', () => {
  test('has no control character, no terminal escape and no mark of direction left', () => {
    expect(cleanLine('a\u001b[31mb\u0007\u009bc\u202ed\u061ce\u200df\u{e0041}g')).toBe(
      'a\ufffd[31mb\ufffd\ufffdc\ufffdd\ufffde\ufffdf\ufffdg',
    );
  });

  test('has no half of a character', () => {
    expect(cleanLine('a\ud83cb')).toBe('a\ufffdb');
  });

  test('stays one line', () => {
    expect(cleanLine('a\r\nb\nc\td')).toBe('a b c d');
  });

  test('keeps every letter that people write', () => {
    const names =
      'thé, \u4e2d\u83ef, \u0639\u0631\u0642\u0633\u0648\u0633, \u{1f33f}, Achillea \u00d7 roseoalba';
    expect(cleanLine(names)).toBe(names);
  });
});

test('JSON keeps what is unsafe as an escape', () => {
  const text = 'a\u009b\u2028\u202e\u{e0041}b';
  const json = cleanJson(JSON.stringify({ text }));
  expect(json).toMatch(/^[\x20-\x7e]*$/);
  expect(JSON.parse(json)).toEqual({ text });
});

describe('Markdown', () => {
  test('a signed figure stays a number, a formula does not stay a formula', () => {
    expect(markdownText('-0.4 %')).toBe('-0.4 %');
    expect(markdownText('+1,250 mg')).toBe('+1,250 mg');
    expect(markdownText('-1+1')).toBe('&#8288;-1+1');
    expect(markdownText(' =1+1')).toBe('&#8288;=1+1');
    expect(markdownText('@SUM(A1)')).toBe('&#8288;@SUM(A1)');
    expect(markdownText('\uff1dSUM(A1)')).toBe('&#8288;\uff1dSUM(A1)');
  });
});
