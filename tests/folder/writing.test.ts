import { describe, expect, it } from 'vitest';
import { parseYaml } from '../../src/folder/parse.ts';
import { changed, FORMULA, MONOGRAPH, PATIENT, problemsOf, told, valid } from './written.ts';

/** The value of a text without a fault. */
function value(text: string): unknown {
  const parsed = parseYaml(text, 'f');
  if (!parsed.ok) throw new Error(parsed.why.map((p) => p.message).join('\n'));
  return parsed.value.value;
}

describe('a scalar', () => {
  it('stays the text that was written', () => {
    expect(value('a: no\nb: 0.50\nc: 1e400\nd: 012\ne: ~\nf: 2026-05-02\ng:\nh: 0x1f\ni: "5"')).toEqual({
      a: 'no',
      b: '0.50',
      c: '1e400',
      d: '012',
      e: '~',
      f: '2026-05-02',
      g: '',
      h: '0x1f',
      i: '5',
    });
  });

  it('stays text where the file asks for an older YAML', () => {
    expect(value('%YAML 1.1\n---\na: no\nb: 012')).toEqual({ a: 'no', b: '012' });
  });

  it('may be marked as the text that it is', () => {
    expect(value('a: !!str 5')).toEqual({ a: '5' });
  });
});

describe('the small files', () => {
  it.each([
    ['monograph', MONOGRAPH],
    ['formula', FORMULA],
    ['patient', PATIENT],
  ] as const)('the %s has no fault', async (kind, text) => {
    expect(await told(kind, text)).toEqual([]);
  });
});

describe('a fault in the writing is told in plain English, where it stands', () => {
  it.each([
    [
      'a: b: c',
      '1:4: a second colon or dash makes a map or list begin here: put a text that holds ": " in quotes, and begin a new key or item on its own line',
    ],
    ['a: - b', '1:4: a list begins on the line after its key: move it down'],
    ['a:\n\tb: c', '2:1: indented with a tab: use spaces'],
    ['a: [b, c\nd: e', '1:4: this [ is not closed: add ], and indent every line between them'],
    ['a: {b: c\nd: e', '1:4: this { is not closed: add }, and indent every line between them'],
    ['a: b\nc: "d\ne: f', '2:4: this quotation mark is not closed: add " where the text ends'],
    ["a: b\nc: 'd\ne: f", "2:4: this quotation mark is not closed: add ' where the text ends"],
    [
      'a: {b: c d: e}',
      '1:8: inside brackets an entry has no dash, and a comma must part it from the next: write such as {a: b, c: d} or [a, b]',
    ],
    [
      'a: ["b" "c"]',
      '1:9: a comma is missing between this entry and the one before it, or quotes round a text',
    ],
    ['a: [b,, c]', '1:7: a comma without an entry before it: remove it'],
    ['a: b\nc: ]', '2:4: this ] closes nothing: remove it, or write [ before it'],
    ['a: @b', '1:4: a text cannot begin with @: put it in quotes'],
    ['a: %b', '1:4: a text cannot begin with %: put it in quotes'],
    [
      'a:b\nc: d',
      '1:1: a line that is neither a key nor an item: write "key: value" with a space after the colon, or indent it to go on with the text above',
    ],
    [
      'a:\n    b: c\n  d: e',
      '3:1: this line begins in the wrong column: keys of one map, and items of one list, begin in one column',
    ],
    ['a: "\\q"', '1:5: a backslash in double quotes has a meaning of its own: put the text in single quotes'],
    ['a: "b"#c', '1:7: write a space before #, or put the text in quotes'],
    [
      'a: "b" c',
      '1:8: "c" follows a value that has ended: begin it on a new line, or put the whole text in quotes',
    ],
    ['a: & b', '1:4: a text that begins with & or * must stand in quotes'],
    ['a: > b', '1:6: "b" cannot stand here: put a text with signs in it in quotes'],
    [
      'a: |\n    \n  b',
      '3:3: the lines of a text after | or > are indented alike, further than the key: use spaces',
    ],
    ['a: !x"b"', '1:6: a word that begins with & or ! runs into the next: put the text in quotes'],
    ['--- a: b', '1:5: begin on the line after ---'],
    ['a: &x &y b', '1:7: two & stand before one value: keep one'],
    ['%YAML 1.3\n---\na: b', '1:7: a line that begins with % is not used in these files: remove it'],
    [
      `${'k'.repeat(1100)}: b`,
      '1:1: this key is longer than 1024 characters: a colon or a quotation mark is missing',
    ],
  ])('%j', async (text, problem) => {
    expect(await told('patient', text)).toContain(problem);
  });

  it('never shows the words of the YAML library alone', async () => {
    for (const p of await problemsOf('patient', 'a: [b}]\nc: {d\n- e'))
      expect(p.message).not.toMatch(/flow|collection|mapping|token/i);
  });

  it('every bracket that stays open is named at its own place', async () => {
    expect(await told('patient', 'a: {b: c,\n  d: [e, f\ng: h')).toEqual([
      '1:4: this { is not closed: add }, and indent every line between them',
      '2:6: this [ is not closed: add ], and indent every line between them',
    ]);
  });
});

describe('what is told together with the rest of the file', () => {
  it('a key that stands twice', async () => {
    const text = changed(PATIENT, 'surgery: null', 'asked: 2026-05-03\nsurgry: null');
    expect(await told('patient', text)).toEqual([
      '5:1: "asked" stands twice in one map: keep one',
      '6:1: unknown key "surgry": did you mean surgery?',
    ]);
  });

  it('a tag', async () => {
    for (const tag of ['!!js/function', '!foo', '!!binary', '!!timestamp', '!!int', '!!set']) {
      const text = changed(PATIENT, 'patient: P-1', `patient: ${tag} P-1\nsurgry: null`);
      expect(await told('patient', text), tag).toEqual([
        '1:10: words with ! are tags, which these files do not use: write the plain value',
        '2:1: unknown key "surgry": did you mean surgery?',
      ]);
    }
  });

  it('a key that is a list or a map', async () => {
    expect(await told('patient', `${PATIENT}? [a]\n: b\n? {c: d}\n: e\n`)).toEqual([
      '6:3: a key must be a plain word: write "key: value"',
      '8:3: a key must be a plain word: write "key: value"',
    ]);
  });

  it('a colon without a key', async () => {
    expect(await told('patient', `${PATIENT}: b\n`)).toEqual(['6:1: the key before this colon is missing']);
  });
});

describe('a file of one document', () => {
  it.each(['a: b\n---\nc: d\n', 'a: b\n...\nc: d\n'])('%j has two', async (text) => {
    const [problem, ...more] = await problemsOf('patient', text);
    expect(more).toEqual([]);
    expect(problem).toMatchObject({
      code: 'several-documents',
      line: text.includes('---') ? 2 : 3,
      column: 1,
    });
  });

  it('may begin with --- and end with ...', async () => {
    expect(await told('patient', `---\n${PATIENT}...\n`)).toEqual([]);
  });
});

describe('an empty file', () => {
  it.each(['', '\n\n', '# only\n# comments\n', '---\n', '\ufeff', '""'])('%j', async (text) => {
    expect(await problemsOf('patient', text)).toEqual([
      { code: 'empty', file: 'file.yaml', line: 1, column: 1, message: 'the file is empty', excerpt: '' },
    ]);
  });

  it.each([
    ['null', 'the file must be a map of keys, and it is a text'],
    ['- a\n- b', 'the file must be a map of keys, and it is a list'],
  ])('is not the same as %j', async (text, message) => {
    expect((await problemsOf('formula', text, 'marsh-tea')).map((p) => p.message)).toEqual([message]);
  });
});

describe('line ends and the mark at the start', () => {
  const faulty = changed(PATIENT, 'medicines:', 'medcines:');
  it.each([
    ['\\n', faulty],
    ['\\r\\n', faulty.replaceAll('\n', '\r\n')],
    ['\\r', faulty.replaceAll('\n', '\r')],
    ['a mark and \\r\\n', `\ufeff${faulty.replaceAll('\n', '\r\n')}`],
  ])('%s move nothing', async (_, text) => {
    expect(await problemsOf('patient', text)).toEqual([
      {
        code: 'unknown-key',
        file: 'file.yaml',
        line: 4,
        column: 1,
        message: 'unknown key "medcines": did you mean medicines?',
        excerpt: 'medcines: [salbutamol]',
      },
    ]);
    expect(await told('patient', `\ufeff${changed(PATIENT, 'patient', 'patint')}`)).toContain(
      '1:1: unknown key "patint": did you mean patient?',
    );
  });

  it('are no part of the values', async () => {
    expect(await valid('patient', `\ufeff${PATIENT.replaceAll('\n', '\r\n')}`)).toEqual(
      await valid('patient', PATIENT),
    );
  });
});

describe('control characters', () => {
  it.each([
    ['\0', 'U+0000'],
    ['\u001b', 'U+001B'],
    ['\u0085', ''],
    ['\u009b', 'U+009B'],
    ['\ufffe', 'U+FFFE'],
  ])('%j', async (sign, name) => {
    const found = await told('patient', changed(PATIENT, 'asked', `note: a${sign}b\nasked`));
    if (name === '') expect(found.join()).not.toContain('not text');
    else expect(found).toEqual([`2:8: a character that is not text (${name}) stands here: delete it`]);
  });

  it('are counted, not listed', async () => {
    expect(await told('patient', 'a: b\n\0\0\0')).toEqual([
      '2:1: a character that is not text (U+0000) stands here, the first of 3 such characters: delete it',
    ]);
  });

  it('never come back in a message or an excerpt', async () => {
    for (const p of await problemsOf(
      'patient',
      `"\\e[31mred\\u202e": a\npatient: a\u202eb\nasked: "\\a\\0"\n`,
    )) {
      expect(p.message).not.toMatch(/[\p{Cc}\u202e]/u);
      expect(p.excerpt).not.toMatch(/[\p{Cc}\u202e]/u);
    }
  });
});

describe('anchors and aliases', () => {
  it('ordinary ones stand for the value', async () => {
    const text = changed(
      changed(MONOGRAPH, 'source: board}\ncautions', 'source: &s board}\ncautions'),
      'why: invented, source: board',
      'why: invented, source: *s',
    );
    expect(await valid('monograph', text)).toEqual(await valid('monograph', MONOGRAPH));
  });

  it('one anchor may be used as often as a long file needs', () => {
    const read = value(`a: &x {b: c}\nd: [${Array(500).fill('*x').join(', ')}]`) as { d: unknown[] };
    expect(read.d).toHaveLength(500);
    expect(read.d[499]).toEqual({ b: 'c' });
  });

  it('the last anchor of a name before the alias counts', () => {
    expect(value('a: &x b\nc: *x\nd: &x e\nf: *x')).toEqual({ a: 'b', c: 'b', d: 'e', f: 'e' });
  });

  it('a fault behind an alias is told once, where it was written', async () => {
    const text = changed(PATIENT, 'medicines: [salbutamol]', 'medicines: [&m {name: a, act: b}, *m, *m]');
    expect(await told('patient', text)).toEqual(['4:26: unknown key "act": did you mean atc?']);
  });

  it('an alias without an anchor is told at the alias, and nothing else is said of it', async () => {
    expect(await told('patient', changed(PATIENT, 'P-1', '*nobody'))).toEqual([
      '1:10: no &nobody stands before *nobody: write the value out, or put the text in quotes',
    ]);
  });

  it('an alias cannot stand within its own value', async () => {
    expect(await told('patient', changed(PATIENT, '[salbutamol]', '&m [*m]'))).toEqual([
      '4:16: *m stands within the value that it repeats: write the value out',
    ]);
  });

  it('maps are not merged', async () => {
    expect(await told('patient', `${PATIENT}<<: {sex: male}\n`)).toEqual([
      '6:1: unknown key "<<": maps are not merged in these files, write the keys out',
    ]);
  });
});

describe('a position', () => {
  it('counts lines and columns from 1', async () => {
    expect(await told('patient', changed(PATIENT, 'patient:', 'patint:'))).toContain(
      '1:1: unknown key "patint": did you mean patient?',
    );
  });

  it('is that of the key, in a map on one line too', async () => {
    expect(await told('formula', changed(FORMULA, 'times: 2', 'tmes: 2'))).toContain(
      '7:28: unknown key "tmes": did you mean times?',
    );
    expect(await told('formula', changed(FORMULA, 'parts: 1.5', 'parts: lots'))).toEqual([
      '5:28: "lots" is not a number: write such as 3, 0.5 or 1 1/2',
    ]);
  });

  it('has the line as its excerpt', async () => {
    const [p] = await problemsOf('formula', changed(FORMULA, 'boil: 10 min', 'boil: 10 mins ago'));
    expect(p?.excerpt).toBe(
      'preparation: {kind: decoction, herb: 12 g, water: 400 mL, boil: 10 mins ago, make_up_to: 300 mL}',
    );
  });

  it('far along a line shows the part of it that leads up to it', async () => {
    const text = changed(PATIENT, '[salbutamol]', `[${'salbutamol, '.repeat(30)}{name: b, act: c}]`);
    const [p] = await problemsOf('patient', text);
    expect(p?.column).toBe(12 + 12 * 30 + 11);
    expect(p?.excerpt).toMatch(/^\.\.\..{20,}\{name: b, act: c\}\]$/);
  });

  it('of a missing key is that of the map that lacks it', async () => {
    expect(await told('patient', changed(PATIENT, '[salbutamol]', '[a, {atc: B01AA03}]'))).toEqual([
      '4:16: "name" is missing: write name: and a text',
    ]);
  });
});
