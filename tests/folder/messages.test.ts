import { describe, expect, it } from 'vitest';
import { changed, FORMULA, MONOGRAPH, PATIENT, problemsOf, told } from './written.ts';

describe('an unknown key', () => {
  it('suggests the nearest that is known here', async () => {
    expect(await told('monograph', changed(MONOGRAPH, 'cautions:', 'cautoins:'))).toEqual([
      '12:1: unknown key "cautoins": did you mean cautions?',
    ]);
  });

  it('unlike all that are known, lists them', async () => {
    expect(await told('patient', changed(PATIENT, '[salbutamol]', '[{name: a, colour: b}]'))).toEqual([
      '4:23: unknown key "colour": known here: name, atc, since, stopped',
    ]);
  });

  it('made by a missing space says so', async () => {
    expect(await told('formula', changed(FORMULA, 'parts: 1.5', 'parts:1.5'))).toContain(
      '5:28: unknown key "parts:1.5": write a space after the colon of parts:',
    );
  });

  it('made by a decimal comma says so', async () => {
    expect(await told('formula', changed(FORMULA, 'parts: 1.5', 'parts: 1,5'))).toEqual([
      '5:37: unknown key "5": a comma in brackets parts two entries, so write a decimal point, as in 1.5',
    ]);
  });

  it('longer than a line is cut', async () => {
    const [p] = await problemsOf('patient', `${PATIENT}${'k'.repeat(500)}: a\n`);
    expect(p?.message).toMatch(/^unknown key "k{60}\.\.\.": known here: patient, /);
  });

  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf'])(
    'may be named %s',
    async (key) => {
      const [p, ...more] = await problemsOf('patient', `${PATIENT}${key}: {polluted: yes}\n`);
      expect(more).toEqual([]);
      expect(p).toMatchObject({ code: 'unknown-key', line: 6, column: 1 });
      expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    },
  );
});

describe('a missing key', () => {
  it.each([
    ['family: Stellaceae\n', '1:1: "family" is missing: write family: and a text'],
    ['  common: [marsh star]\n', '2:1: "common" is missing: write common: and a text'],
    [
      ', reading: practice',
      '9:3: "reading" is missing: write reading: and one of original, product-text, restated, computed, memory, practice',
    ],
    ['checked: null\n', '1:1: "checked" is missing: write checked: and null or a map of keys'],
    [
      ', route: oral',
      '11:5: "route" is missing: write route: and one of oral, oromucosal, cutaneous, inhalation, rectal, vaginal, bath',
    ],
    [', why: invented', '13:5: "why" is missing: write why: and a text'],
    [
      'says: not-recommended, ',
      '14:1: "says" is missing: write says: and one of contraindicated, avoid, prohibited, not-recommended, caution, monitor, adds-to-effect, take-apart, may-impair-driving, drink-enough, see-someone, tell, acceptable',
    ],
  ])('%j', async (passage, problem) => {
    expect(await told('monograph', changed(MONOGRAPH, passage, ''))).toEqual([problem]);
  });

  it('that is a map or a list says so', async () => {
    const without = MONOGRAPH.replace(/names:\n.*\n.*\n/, '').replace(/doses:\n.*\n/, '');
    expect(await told('monograph', without)).toEqual([
      '1:1: "names" is missing: write names: and a map of keys',
      '1:1: "doses" is missing: write doses: and none-read or a list',
    ]);
  });

  it('of the kind of preparation lists the kinds', async () => {
    expect(await told('formula', changed(FORMULA, 'kind: decoction, ', ''))).toEqual([
      '6:1: "kind" is missing: write kind: and one of infusion, decoction, cold-maceration, wash, powder, capsule, tincture, fresh-tincture, percolation, glycerite, infused-oil, liquid-blend, drops, syrup, honey, oxymel, ointment, suppository',
    ]);
  });
});

describe('a value of the wrong shape', () => {
  it.each([
    [
      'asked: 2026-05-02',
      'asked: [2026-05-02]',
      '2:1: "asked" must be a text, and it is a list: write 2026-05-02 without the brackets',
    ],
    ['asked: 2026-05-02', 'asked: {on: 2026-05-02}', '2:1: "asked" must be a text, and it is a map of keys'],
    ['[salbutamol]', 'salbutamol', '4:1: "medicines" must be a list, and it is a text: write [salbutamol]'],
    ['[salbutamol]', '{name: salbutamol}', '4:1: "medicines" must be a list, and it is a map of keys'],
    ['[salbutamol]', '', '4:1: "medicines" is empty: write a list'],
    [
      '[salbutamol]',
      '[a, [b]]',
      '4:16: item 2 of "medicines" must be a text or a map of keys, and it is a list: write b without the brackets',
    ],
    ['[salbutamol]', '[{name: [a, b]}]', '4:14: "name" must be a text, and it is a list'],
    [
      'surgery: null',
      'sex: [male]',
      '5:1: "sex" must be one of female, male, and it is a list: write male without the brackets',
    ],
    ['surgery: null', 'sex:', '5:1: "sex" is empty: write one of female, male'],
    ['surgery: null', 'surgery:', '5:1: this is left blank: write null where there is none'],
    [
      'surgery: null',
      'notes: [[a]]',
      '5:9: item 1 of "notes" must be a text, and it is a list: write a without the brackets',
    ],
  ])('%j as %j', async (from, to, problem) => {
    expect(await told('patient', changed(PATIENT, from, to))).toEqual([problem]);
  });

  it('in a table of sources', async () => {
    expect(await told('monograph', changed(MONOGRAPH, 'sources:\n', 'sources:\n  other: a text\n'))).toEqual([
      '9:3: "other" must be a map of keys, and it is a text',
    ]);
    expect(await told('monograph', MONOGRAPH.replace(/sources:\n.*\n/, 'sources: none\n'))).toEqual([
      '8:1: "sources" must be a map of keys, and it is a text',
    ]);
  });

  it('where one may stand for a list of one', async () => {
    const at = (to: string) => changed(MONOGRAPH, 'says: not-recommended', to);
    expect(await told('monograph', at('says: [tell]'))).toEqual([
      '14:13: "says" must be one of contraindicated, avoid, prohibited, not-recommended, caution, monitor, adds-to-effect, take-apart, may-impair-driving, drink-enough, see-someone, tell, acceptable, and it is a list: write tell without the brackets',
    ]);
    expect(await told('monograph', at('says: not-recomended'))).toEqual([
      '14:13: "not-recomended" is not a choice here: did you mean not-recommended?',
    ]);
    expect(await told('monograph', changed(MONOGRAPH, 'common: [marsh star]', 'common: []'))).toEqual([
      '4:3: the list is empty: write at least one, or leave the key out',
    ]);
    expect(
      await told('monograph', changed(MONOGRAPH, 'kind: infusion', 'kind: [infusion, decotion]')),
    ).toEqual(['11:55: "decotion" is not a choice here: did you mean decoction?']);
  });
});

describe('a choice', () => {
  it('misspelled suggests the nearest', async () => {
    expect(await told('monograph', changed(MONOGRAPH, 'route: oral', 'route: orall'))).toEqual([
      '11:55: "orall" is not a choice here: did you mean oral?',
    ]);
  });

  it('unlike all others lists them', async () => {
    expect(await told('patient', `${PATIENT}sex: other\n`)).toEqual([
      '6:1: "other" is not a choice here: write one of female, male',
    ]);
  });

  it('of the kind of preparation is told together with the rest of the map', async () => {
    const text = changed(FORMULA, 'kind: decoction, herb: 12 g', 'kind: decocton, herb: 12, hrb: 1 g');
    expect(await told('formula', text)).toEqual([
      '6:15: "decocton" is not a choice here: did you mean decoction?',
      '6:31: "12" has no unit: write such as 12 g',
      '6:41: unknown key "hrb": did you mean herb?',
    ]);
    expect(await told('formula', changed(FORMULA, 'kind: decoction', 'kind: brew'))).toEqual([
      '6:15: "brew" is not a choice here: write one of infusion, decoction, cold-maceration, wash, powder, capsule, tincture, fresh-tincture, percolation, glycerite, infused-oil, liquid-blend, drops, syrup, honey, oxymel, ointment, suppository',
    ]);
    expect(await told('formula', changed(FORMULA, 'kind: decoction', 'kind: [decoction]'))).toEqual([
      '6:15: "kind" must be one of infusion, decoction, cold-maceration, wash, powder, capsule, tincture, fresh-tincture, percolation, glycerite, infused-oil, liquid-blend, drops, syrup, honey, oxymel, ointment, suppository, and it is a list: write decoction without the brackets',
    ]);
  });

  it('of names that every object has is no choice', async () => {
    for (const word of ['constructor', 'toString', '__proto__'])
      expect(await told('formula', changed(FORMULA, 'kind: decoction', `kind: ${word}`))).toEqual([
        `6:15: "${word}" is not a choice here: write one of infusion, decoction, cold-maceration, wash, powder, capsule, tincture, fresh-tincture, percolation, glycerite, infused-oil, liquid-blend, drops, syrup, honey, oxymel, ointment, suppository`,
      ]);
  });
});

describe('where one of several shapes may stand', () => {
  it('what is wrong with the shape that was written is told', async () => {
    const dose = (to: string) => changed(MONOGRAPH, 'single: 1.5-4 g', to);
    expect(await told('monograph', dose('single: 1.5-4 gg'))).toEqual([
      '11:68: "gg" is not a known unit: did you mean g or gm or kg?',
    ]);
    expect(await told('monograph', MONOGRAPH.replace(/doses:\n.*\n/, 'doses: none-raed\n'))).toEqual([
      '10:1: "none-raed" is not a choice here: did you mean none-read?',
    ]);
    expect(await told('monograph', MONOGRAPH.replace(/doses:\n.*\n/, 'doses: []\n'))).toEqual([
      '10:1: write "none-read" where no dose was read',
    ]);
    expect(await told('monograph', MONOGRAPH.replace(/doses:\n.*\n/, 'doses: {a: b}\n'))).toEqual([
      '10:1: "doses" must be none-read or a list, and it is a map of keys',
    ]);
  });

  it('of interactions: a word or a map', async () => {
    const at = (to: string) => changed(MONOGRAPH, 'interactions: not-read', `interactions: ${to}`);
    expect(await told('monograph', at('not-raed'))).toEqual([
      '15:1: "not-raed" is not a choice here: did you mean not-read?',
    ]);
    expect(await told('monograph', at('{says: listd, source: board}'))).toEqual([
      '15:16: "listd" is not a choice here: did you mean listed?',
    ]);
    expect(await told('monograph', at('{says: listed}'))).toEqual([
      '15:1: "source" is missing: write source: and a text',
    ]);
    expect(await told('monograph', at('[listed]'))).toEqual([
      '15:1: "interactions" must be one of not-read, none-known, no-data or a map of keys, and it is a list',
    ]);
  });

  it('of a caution for pregnancy: yes or no, or a map', async () => {
    const at = (to: string) => changed(MONOGRAPH, 'when: {allergy: [marsh star]}', `when: {pregnant: ${to}}`);
    expect(await told('monograph', at('yes'))).toEqual([]);
    expect(await told('monograph', at('maybe'))).toEqual(['13:13: "maybe": write yes or no']);
    expect(await told('monograph', at('{weeks: 40-30}'))).toEqual([
      '13:24: "40-30" runs downward: write the smaller figure first',
    ]);
    expect(await told('monograph', at('{month: 3}'))).toEqual([
      '13:13: "weeks" is missing: write weeks: and a text',
      '13:24: unknown key "month": known here: weeks',
    ]);
  });

  it('of a sign-off: null or a map', async () => {
    const at = (to: string) => changed(MONOGRAPH, 'checked: null', `checked: ${to}`);
    for (const nothing of ['null', '~', 'Null', 'NULL'])
      expect(await told('monograph', at(nothing))).toEqual([]);
    expect(await told('monograph', at('{by: AB, on: 2026-13-01}'))).toEqual([
      '7:19: "2026-13-01" is not in the calendar: write year-month-day, such as 2026-05-02',
    ]);
    expect(await told('monograph', at('yes'))).toEqual([
      '7:1: "checked" must be null or a map of keys, and it is a text',
    ]);
  });

  it('of a date or null', async () => {
    const at = (to: string) => changed(PATIENT, 'surgery: null', `surgery: ${to}`);
    expect(await told('patient', at('2026-06-31'))).toEqual([
      '5:1: "2026-06-31" is not in the calendar: write year-month-day, such as 2026-05-02',
    ]);
    expect(await told('patient', at('none'))).toEqual([
      '5:1: "none" is not a date: write year-month-day, such as 2026-05-02',
    ]);
  });
});

describe('a value that no parser reads', () => {
  it('stands at its own key within its own item', async () => {
    expect(await told('formula', changed(FORMULA, 'parts: 1.5', 'amount: 1.5'))).toContain(
      '5:28: "1.5" has no unit: write such as 1.5 g',
    );
    const lists = changed(
      PATIENT,
      '[salbutamol]',
      '\n  - salbutamol\n  - name: a\n    since: May\n  - {name: b, since: 2026-13}',
    );
    expect(await told('patient', lists)).toEqual([
      '7:5: "May" is not a date: write 1991-06-14, or 1991-06 where only the month is known',
      '8:15: "2026-13" is not in the calendar: months run from 01 to 12',
    ]);
  });

  it.each([
    ['patient: P-1', 'patient: ""', '1:1: nothing is written here: write some words'],
    ['patient: P-1', `patient: ${'P'.repeat(61)}`, '1:1: write a code of at most 60 characters'],
    ['born: 1984-02-11', 'weight: 0 kg', "3:1: this weight is not a person's: write such as 68 kg"],
    ['born: 1984-02-11', 'weight: 68000 kg', "3:1: this weight is not a person's: write such as 68 kg"],
    ['born: 1984-02-11', 'drives: sometimes', '3:1: "sometimes": write yes or no'],
  ])('%j as %j', async (from, to, problem) => {
    expect(await told('patient', changed(PATIENT, from, to))).toEqual([problem]);
  });

  it.each([
    ['parts: 1.5', 'parts: 0', '5:28: "0" must be above 0'],
    ['parts: 1.5', 'percent: 100 %', '5:28: "100 %" must lie between 0 and 100 %'],
    ['herb: 12 g', 'herb: 0 g', '6:32: this must be above 0'],
    [
      'take: 150 mL',
      'take: 3/2 of the batch',
      '7:14: the fraction of "3/2" is not below 1: write such as 1 1/2',
    ],
    [
      'take: 150 mL',
      'take: 1 1/2 of the batch',
      '7:14: "1 1/2 of the batch" is not a share of the batch: write such as 1/3 of the batch',
    ],
    [
      'take: 150 mL',
      'take: constructor of the batch',
      '7:14: "constructor" is not a number: write such as 3, 0.5 or 1 1/2',
    ],
    ['times: 2', 'times: 0', '7:28: this must be above 0'],
    ['times: 2', 'times: 2, days_a_week: 8', '7:38: a week has 7 days'],
    ['for: 7 days', 'for: 0 days', '7:38: this must be above 0'],
  ])('of a formula: %j as %j', async (from, to, problem) => {
    expect(await told('formula', changed(FORMULA, from, to))).toContain(problem);
  });
});

describe('an id', () => {
  it('must be that of the file', async () => {
    expect(await told('formula', FORMULA, 'marsh-tea')).toEqual([]);
    expect(await told('formula', FORMULA, 'hill-tea')).toEqual([
      '1:1: formula is "marsh-tea" but the file is named hill-tea.yaml: make them the same',
    ]);
    expect(await told('monograph', `\n\n${MONOGRAPH}`, 'marsh-star')).toEqual([
      '3:1: id is "marsh-star-herb" but the file is named marsh-star.yaml: make them the same',
    ]);
  });

  it('in disorder is told together with what else is wrong', async () => {
    const text = changed(changed(FORMULA, 'formula: marsh-tea', 'formula: Marsh Tea'), 'title', 'tytle');
    expect(await told('formula', text, 'marsh-tea')).toEqual([
      '1:1: "Marsh Tea" is not an id: write lower-case letters, figures and single hyphens, such as nettle-leaf',
      '1:1: "title" is missing: write title: and a text',
      '1:1: formula is "Marsh Tea" but the file is named marsh-tea.yaml: make them the same',
      '2:1: unknown key "tytle": did you mean title?',
    ]);
  });

  it.each(['../x', 'a/b', 'a\\b', '.', 'CON', 'a--b', '-a', 'a.yaml', 'é', 'a b'])(
    'is never %j',
    async (id) => {
      expect(await told('formula', changed(FORMULA, 'herb: hill-star-root', `herb: '${id}'`))).toEqual([
        `5:6: "${id}" is not an id: write lower-case letters, figures and single hyphens, such as nettle-leaf`,
      ]);
    },
  );

  it('is no name that a computer keeps for itself', async () => {
    for (const id of ['con', 'nul', 'com1', 'lpt9'])
      expect(await told('formula', changed(FORMULA, 'herb: hill-star-root', `herb: ${id}`))).toEqual([
        `5:6: "${id}" is kept for a device on some computers: choose another id`,
      ]);
  });

  it('has an end', async () => {
    const [p] = await told('formula', changed(FORMULA, 'herb: hill-star-root', `herb: ${'a'.repeat(81)}`));
    expect(p).toBe(`5:6: the id "${'a'.repeat(80)}..." is too long: write at most 80 letters`);
  });
});

describe('a source', () => {
  it('that the file does not name suggests the nearest', async () => {
    expect(
      await told('monograph', changed(MONOGRAPH, 'times: 3, source: board', 'times: 3, source: bord')),
    ).toEqual(['11:95: "bord" is not among this file\'s sources: did you mean board?']);
    expect(
      await told('monograph', changed(MONOGRAPH, 'because: no-data, source: board', 'source: ministry')),
    ).toEqual(['14:36: "ministry" is not among this file\'s sources: known here are board']);
  });

  it('is never what every object has', async () => {
    for (const name of ['constructor', 'toString', '__proto__'])
      expect(
        await told('monograph', changed(MONOGRAPH, 'times: 3, source: board', `times: 3, source: ${name}`)),
      ).toEqual([`11:95: "${name}" is not among this file's sources: known here are board`]);
  });

  it('may bear such a name where the file has it', async () => {
    const text = MONOGRAPH.replace('  board:', '  toString:').replaceAll('source: board', 'source: toString');
    expect(await told('monograph', text)).toEqual([]);
  });
});
