import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Folder, openFolder } from '../../src/folder/folder.ts';
import { findHerb } from '../../src/folder/herb-names.ts';
import { latinForms } from '../../src/folder/latin-name.ts';
import { opened } from '../../src/folder/read.ts';
import { MONOGRAPH } from './written.ts';

const scratch = mkdtempSync(join(tmpdir(), 'scruple-names-'));
afterAll(() => rmSync(scratch, { recursive: true }));

let folder: Folder;
let shipped: Folder;

function monograph(id: string, names: string): void {
  const text = MONOGRAPH.replace('id: marsh-star-herb', `id: ${id}`).replace(
    /names:\n.*\n.*\n/,
    `names: ${names}\n`,
  );
  writeFileSync(join(scratch, 'monographs', `${id}.yaml`), text);
}

beforeAll(async () => {
  for (const place of ['monographs', 'formulas']) mkdirSync(join(scratch, place));
  monograph(
    'marsh-star-herb',
    "{latin: Stella palustris (Inv.) Fict., pharmacopoeial: Stellae palustris herba, common: [marsh star, l'étoile des marais, star]}",
  );
  monograph(
    'hill-star-root',
    '{latin: Stella montana Inv. subsp. montana var. alba (Fict.) Inv., common: [hill star, star]}',
  );
  monograph(
    'hill-star-herb',
    '{latin: Stella montana Inv. subsp. montana var. rubra Inv., common: [red hill star]}',
  );
  monograph(
    'two-star-bark',
    '{latin: "Astrum minus Inv., Astrum maius Fict. or Astrum x medium (Inv.) Fict. and other Astrum species", common: [two star]}',
  );
  writeFileSync(join(scratch, 'monographs/broken-star.yaml'), 'id: [\n');
  const [mine, ours] = [
    await openFolder(scratch, undefined),
    await openFolder(new URL('../..', import.meta.url).pathname, undefined),
  ];
  if (!mine.ok || !ours.ok) throw new Error('no folder');
  folder = mine.value;
  shipped = ours.value;
});

describe('a herb is found', () => {
  it.each([
    ['by its id', 'marsh-star-herb'],
    ['by its id in other letters', 'Marsh Star Herb'],
    ['by its Latin name as printed', 'Stella palustris (Inv.) Fict.'],
    ['by its Latin name without author', 'Stella palustris'],
    ['whatever the letters', 'STELLA PALUSTRIS'],
    ['by its pharmacopoeial name', 'stellae palustris herba'],
    ['by a common name', 'Marsh star'],
    ['whatever the spaces', '  marsh   star '],
    ['without its accents', "l'etoile des marais"],
    ['with accents put together otherwise', "l'e\u0301toile des marais"],
    ['with the apostrophe of a word processor', 'l\u2019\u00e9toile des marais'],
  ])('%s', async (_, name) => {
    expect(await findHerb(folder, name)).toEqual({ kind: 'found', id: 'marsh-star-herb' });
  });

  it.each([
    'Astrum minus',
    'Astrum maius Fict.',
    'astrum x medium',
    'Astrum \u00d7 medium',
    'Astrum minus Inv.',
  ])('by each species it may come from: %s', async (name) => {
    expect(await findHerb(folder, name)).toEqual({ kind: 'found', id: 'two-star-bark' });
  });

  it('by its subspecies and variety, without the authors between', async () => {
    expect(await findHerb(folder, 'Stella montana subsp. montana var. rubra')).toEqual({
      kind: 'found',
      id: 'hill-star-herb',
    });
  });

  it('by its id with one look, whatever the size of the library', async () => {
    opened.length = 0;
    await findHerb(folder, 'hill-star-root');
    expect(opened).toEqual([]);
  });

  it('by its id even where its monograph is in disorder', async () => {
    expect(await findHerb(folder, 'broken-star')).toEqual({ kind: 'found', id: 'broken-star' });
    expect(await findHerb(folder, 'Broken star')).toEqual({ kind: 'found', id: 'broken-star' });
  });
});

describe('a name that several herbs bear', () => {
  it('gives them all', async () => {
    expect(await findHerb(folder, 'star')).toEqual({
      kind: 'several',
      ids: ['hill-star-root', 'marsh-star-herb'],
    });
    expect(await findHerb(folder, 'Stella montana')).toEqual({
      kind: 'several',
      ids: ['hill-star-herb', 'hill-star-root'],
    });
  });
});

describe('a name that no herb bears', () => {
  it.each([
    ['marsh-star-hreb', ['marsh-star-herb']],
    ['mersh star', ['marsh star']],
    ['Stella palustri', ['Stella palustris']],
    ['brokn-star', ['broken-star']],
    ['oak bark', []],
    ['', []],
    ['../marsh-star-herb', ['marsh-star-herb']],
  ])('%j suggests %j', async (name, near) => {
    expect(await findHerb(folder, name)).toEqual({ kind: 'none', near });
  });
});

describe('the forms of a Latin name', () => {
  it.each([
    ['Matricaria chamomilla L.', ['Matricaria chamomilla L.', 'Matricaria chamomilla']],
    ['Filipendula ulmaria (L.) Maxim.', ['Filipendula ulmaria (L.) Maxim.', 'Filipendula ulmaria']],
    ['Mentha x piperita L.', ['Mentha x piperita L.', 'Mentha x piperita']],
    [
      'Crataegus monogyna Jacq. f. ex Lindm.',
      ['Crataegus monogyna Jacq. f. ex Lindm.', 'Crataegus monogyna'],
    ],
    [
      'Foeniculum vulgare Miller subsp. vulgare var. dulce (Mill.) Batt. & Trab.',
      [
        'Foeniculum vulgare Miller subsp. vulgare var. dulce (Mill.) Batt. & Trab.',
        'Foeniculum vulgare subsp. vulgare var. dulce',
        'Foeniculum vulgare',
      ],
    ],
    [
      'Salix purpurea L. and other Salix species',
      ['Salix purpurea L. and other Salix species', 'Salix purpurea'],
    ],
    ['', ['']],
  ])('%j', (printed, forms) => {
    expect(latinForms(printed)).toEqual(forms);
  });
});

describe('the shipped library', () => {
  it.each([
    ['Glycyrrhiza uralensis', 'liquorice-root'],
    ['salix daphnoides', 'willow-bark'],
    ['Sweet Fennel', 'sweet-fennel-fruit'],
    ['St John\u2019s wort', 'st-johns-wort-herb'],
    ['Foeniculum vulgare subsp. vulgare var. dulce', 'sweet-fennel-fruit'],
    ['Melissae folium', 'lemon-balm-leaf'],
  ])('knows %s', async (name, id) => {
    expect(await findHerb(shipped, name)).toEqual({ kind: 'found', id });
  });

  it('has two fennels', async () => {
    expect(await findHerb(shipped, 'Foeniculum vulgare')).toEqual({
      kind: 'several',
      ids: ['bitter-fennel-fruit', 'sweet-fennel-fruit'],
    });
  });
});
