import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import {
  type Folder,
  findRoot,
  hasId,
  idsOf,
  openFolder,
  pathOf,
  readById,
  readTable,
  shownPath,
} from '../../src/folder/folder.ts';
import { opened } from '../../src/folder/read.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { mustUnit } from '../../src/measure/units.ts';
import { changed, FORMULA, MONOGRAPH } from './written.ts';

const scratch = realpathSync(mkdtempSync(join(tmpdir(), 'scruple-folder-')));
afterAll(() => rmSync(scratch, { recursive: true }));

/** A new folder of a practice, with one monograph and one formula. */
function practiceFolder(name = 'home'): string {
  const root = join(mkdtempSync(join(scratch, 'p-')), name);
  for (const place of ['monographs/reference', 'formulas', 'patients/2026'])
    mkdirSync(join(root, place), { recursive: true });
  writeFileSync(join(root, 'monographs/marsh-star-herb.yaml'), MONOGRAPH);
  writeFileSync(join(root, 'formulas/marsh-tea.yaml'), FORMULA);
  return root;
}

async function open(start: string, named?: string): Promise<Folder> {
  const folder = await openFolder(start, named);
  if (!folder.ok) throw new Error(folder.why.map((p) => p.message).join());
  return folder.value;
}

let root: string;
beforeEach(() => {
  root = practiceFolder();
});

describe('the folder', () => {
  it('is the nearest one upward', async () => {
    expect(findRoot(root)).toBe(root);
    expect(findRoot(join(root, 'patients/2026'))).toBe(root);
    expect((await open(join(root, 'monographs/reference'))).root).toBe(root);
  });

  it('is the inner one of two', () => {
    const inner = join(root, 'patients/branch');
    for (const place of ['monographs', 'formulas', 'patients'])
      mkdirSync(join(inner, place), { recursive: true });
    expect(findRoot(join(inner, 'patients'))).toBe(inner);
    expect(findRoot(join(root, 'patients'))).toBe(root);
  });

  it('needs both monographs/ and formulas/, and both must be folders', async () => {
    const half = mkdtempSync(join(scratch, 'half-'));
    mkdirSync(join(half, 'monographs'));
    writeFileSync(join(half, 'formulas'), 'a file of this name');
    expect(findRoot(half)).toBeNull();
    expect(await openFolder(half, undefined)).toEqual({
      ok: false,
      why: [
        {
          code: 'no-folder',
          file: '.',
          message:
            'no folder here or above holds monographs/ and formulas/: change to your folder, or name it with --folder',
        },
      ],
    });
  });

  it('named with --folder is that one, from anywhere', async () => {
    const other = practiceFolder('other');
    expect((await open(root, other)).root).toBe(other);
    expect((await open(root, relative(process.cwd(), other))).root).toBe(other);
    expect((await open('/', other)).root).toBe(other);
  });

  it('named with --folder is not looked for upward', async () => {
    const below = join(root, 'patients');
    expect(await openFolder(root, below)).toEqual({
      ok: false,
      why: [
        { code: 'no-folder', file: below, message: 'this folder does not hold monographs/ and formulas/' },
      ],
    });
    expect(await openFolder(root, join(scratch, 'nowhere'))).toMatchObject({
      ok: false,
      why: [{ code: 'no-folder' }],
    });
  });

  it('opens nothing but practice.yaml', async () => {
    opened.length = 0;
    await open(root);
    expect(opened).toEqual([]);
    writeFileSync(join(root, 'practice.yaml'), 'practice: Marsh House\n');
    await open(root);
    expect(opened).toEqual([join(root, 'practice.yaml')]);
  });
});

describe('practice.yaml', () => {
  it('missing, leaves the common defaults', async () => {
    const { settings } = await open(root);
    expect(settings).toMatchObject({
      practice: null,
      jurisdiction: null,
      balance: { step: quantity('0.1', 'g') },
    });
  });

  it('settles words, measures and the balance', async () => {
    writeFileSync(
      join(root, 'practice.yaml'),
      'jurisdiction: UK\nsettled: {pints: imperial, ounce: oz av}\nmeasures: {House Cup: 200 mL}\nbalance: {step: 0.01 g}\nanswers: {pregnant: 28 days}\n',
    );
    const { settings, measures } = await open(root);
    expect(settings.jurisdiction).toBe('UK');
    expect(measures.settled.get('pint')).toBe(mustUnit('[pt_br]'));
    expect(measures.settled.get('ounce')).toBe(mustUnit('[oz_av]'));
    expect(measures.own.get('house cup')).toMatchObject({ symbol: 'House Cup', dimension: 'volume' });
    // Nobody reads a balance more finely than its step unless they say so.
    expect(settings.balance).toMatchObject({
      step: quantity('0.01', 'g'),
      sensitivity: quantity('0.01', 'g'),
      permittedError: quantity(5, '%'),
    });
    expect(settings.answers.get('pregnant')).toEqual(quantity(28, 'd'));
  });

  it('in disorder, says where', async () => {
    writeFileSync(
      join(root, 'practice.yaml'),
      '# ours\njurisdiction: UK\nsettled: {pint: metric}\nbalnce: {}\n',
    );
    expect(await openFolder(root, undefined)).toMatchObject({
      ok: false,
      why: [
        {
          code: 'bad-value',
          file: 'practice.yaml',
          line: 3,
          column: 11,
          message: 'pint cannot mean "metric": write one of imp pint, US pint',
        },
        {
          code: 'unknown-key',
          file: 'practice.yaml',
          line: 4,
          column: 1,
          message: 'unknown key "balnce": did you mean balance?',
        },
      ],
    });
  });

  it('that is a folder, or a link to nowhere, is never taken for missing', async () => {
    symlinkSync('nowhere.yaml', join(root, 'practice.yaml'));
    expect(await openFolder(root, undefined)).toMatchObject({
      ok: false,
      why: [{ code: 'not-found', file: 'practice.yaml' }],
    });
    rmSync(join(root, 'practice.yaml'));
    mkdirSync(join(root, 'practice.yaml'));
    expect(await openFolder(root, undefined)).toMatchObject({
      ok: false,
      why: [{ code: 'unreadable', file: 'practice.yaml' }],
    });
  });
});

describe('a file by its id', () => {
  it('is found where files of its kind lie', async () => {
    const folder = await open(root);
    expect(pathOf('monograph', 'marsh-star-herb')).toBe(join('monographs', 'marsh-star-herb.yaml'));
    expect(pathOf('formula', 'marsh-tea')).toBe(join('formulas', 'marsh-tea.yaml'));
    expect(pathOf('uses', 'uses')).toBe(join('monographs', 'reference', 'uses.yaml'));
    expect(hasId(folder, 'monograph', 'marsh-star-herb')).toBe(true);
    expect(hasId(folder, 'formula', 'marsh-star-herb')).toBe(false);
    expect(await readById(folder, 'monograph', 'marsh-star-herb')).toMatchObject({
      ok: true,
      value: { file: pathOf('monograph', 'marsh-star-herb'), value: { part: 'herb' } },
    });
    expect(await readById(folder, 'monograph', 'hill-star-root')).toMatchObject({
      ok: false,
      why: [{ code: 'not-found', file: pathOf('monograph', 'hill-star-root') }],
    });
    expect(await readTable(folder, 'uses')).toMatchObject({
      ok: false,
      why: [{ code: 'not-found', file: pathOf('uses', 'uses') }],
    });
  });

  it('is a problem with its path where it is a folder', async () => {
    mkdirSync(join(root, 'formulas/hill-tea.yaml'));
    expect(await readById(await open(root), 'formula', 'hill-tea')).toEqual({
      ok: false,
      why: [
        {
          code: 'unreadable',
          file: pathOf('formula', 'hill-tea'),
          message: 'this is a folder: name a file in it',
        },
      ],
    });
  });

  it.each([
    '../practice',
    '../../etc/passwd',
    'a/b',
    'a\\b',
    '..',
    '.',
    '',
    '/etc/passwd',
    'CON',
    'con',
    'nul',
    'lpt1',
    'a.b',
    'a\0',
    'A',
    'a%2fb',
    '%2e%2e',
    'C:',
    'a '.padEnd(9),
    'x'.repeat(300),
  ])('%j never leaves the folder', async (id) => {
    writeFileSync(join(root, 'practice.yaml'), 'practice: Marsh House\n');
    const folder = await open(root);
    opened.length = 0;
    for (const kind of ['monograph', 'formula', 'uses'] as const) {
      expect(hasId(folder, kind, id)).toBe(false);
      expect(await readById(folder, kind, id)).toMatchObject({
        ok: false,
        why: [{ code: 'wrong-id', file: id }],
      });
    }
    expect(opened).toEqual([]);
  });

  it('is read with the measures of the practice', async () => {
    writeFileSync(join(root, 'practice.yaml'), 'measures: {house cup: 200 mL}\n');
    writeFileSync(
      join(root, 'formulas/marsh-tea.yaml'),
      changed(FORMULA, 'take: 150 mL', 'take: 1 house cup'),
    );
    expect(await readById(await open(root), 'formula', 'marsh-tea')).toMatchObject({ ok: true });
    rmSync(join(root, 'practice.yaml'));
    expect(await readById(await open(root), 'formula', 'marsh-tea')).toMatchObject({
      ok: false,
      why: [{ line: 7, column: 14, message: expect.stringContaining('"house cup" is not a known unit') }],
    });
  });
});

describe('the ids of the library', () => {
  it('are those of its YAML files, in order; a link counts, a folder and another file do not', async () => {
    const library = join(root, 'monographs');
    writeFileSync(join(library, 'alder.yaml'), MONOGRAPH);
    writeFileSync(join(library, 'notes.txt'), '');
    writeFileSync(join(library, 'birch.yml'), '');
    mkdirSync(join(library, 'old.yaml'));
    symlinkSync(join(library, 'marsh-star-herb.yaml'), join(library, 'linked.yaml'));
    expect(idsOf(await open(root), 'monograph')).toEqual(['alder', 'linked', 'marsh-star-herb']);
    expect(idsOf(await open(root), 'formula')).toEqual(['marsh-tea']);
  });
});

describe('a path as it is shown', () => {
  it('is short within the folder one is in, and as given outside', () => {
    expect(shownPath(join(process.cwd(), 'patients/a.yaml'))).toBe(join('patients', 'a.yaml'));
    expect(shownPath('patients/a.yaml')).toBe(join('patients', 'a.yaml'));
    expect(shownPath('/elsewhere/a.yaml')).toBe('/elsewhere/a.yaml');
    expect(shownPath('../a.yaml')).toBe('../a.yaml');
    expect(shownPath(process.cwd())).toBe('.');
  });
});
