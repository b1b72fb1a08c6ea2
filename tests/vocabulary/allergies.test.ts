import { describe, expect, it } from 'vitest';
import {
  allergyHolds,
  allergyTerm,
  familyNamed,
  familyOf,
  knownAllergyTarget,
  resolveAllergy,
} from '../../src/vocabulary/allergies.ts';
import { normal } from '../../src/vocabulary/normal.ts';
import { allergies, allergyTable, groupTable, item } from './tables.ts';

const HERBS: Record<string, string> = {
  chamomile: 'Matricaria',
  yarrow: 'Achillea',
  peppermint: 'Mentha',
  elder: 'Sambucus',
  birch: 'Betula',
  nettle: 'Urtica',
  fennel: 'Foeniculum',
};
const genusOf = (word: string): string | null => HERBS[word] ?? null;

const resolve = (word: string) => resolveAllergy(allergies, word, genusOf);
const stated = (...words: string[]) => words.map((w) => item(resolve(w)));
const holds = (target: string, ...words: string[]) => allergyHolds(allergies, stated(...words), target);

describe('the table of allergies', () => {
  it('holds 63 families and 43 substances', () => {
    expect(allergyTable.families).toHaveLength(63);
    expect(allergyTable.substances).toHaveLength(43);
  });

  it('points only at what exists', () => {
    const ids = [...allergyTable.families, ...allergyTable.substances].map((f) => f.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(
      [...allergyTable.families, ...allergyTable.substances]
        .flatMap((f) => f.cross ?? [])
        .filter((c) => !ids.includes(c)),
    ).toEqual([]);
    expect(
      allergyTable.substances
        .flatMap((s) => s.medicine_groups ?? [])
        .filter((g) => !groupTable.groups.some((x) => x.id === g)),
    ).toEqual([]);
    expect(
      allergyTable.substances
        .flatMap((s) => [...(s.genera ?? []), ...(s.plant ? [s.plant] : [])])
        .filter((g) => familyOf(allergies, g) === null),
    ).toEqual([]);
  });

  it('puts each genus in one family', () => {
    const genera = allergyTable.families.flatMap((f) => f.genera ?? []);
    expect(genera.filter((g, i) => genera.indexOf(g) !== i)).toEqual([]);
    expect((allergyTable.moved_genera ?? []).filter((m) => !genera.includes(m.genus))).toEqual([]);
  });
});

describe('every word', () => {
  it('for a family resolves to it: its name, former names, everyday names', () => {
    const wrong = allergyTable.families.flatMap((f) =>
      [f.id, f.term, ...(f.also ?? [])].flatMap((w) =>
        [w, w.toUpperCase(), `allergy to ${w}`, `${w} allergy`].filter(
          (word) => !item(resolve(word)).families.includes(f.id),
        ),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('for a genus resolves to it, and with "family" to its family', () => {
    const wrong = allergyTable.families.flatMap((f) =>
      (f.genera ?? []).filter(
        (g) =>
          !item(resolve(g.toLowerCase())).genera.includes(g) ||
          !item(resolve(`${g} family`)).families.includes(f.id),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('for a substance resolves to it', () => {
    const wrong = allergyTable.substances.flatMap((s) =>
      [s.id, s.term, ...(s.also ?? [])].filter((w) => !item(resolve(w)).substances.includes(s.id)),
    );
    expect(wrong).toEqual([]);
  });

  // International Code of Nomenclature for algae, fungi, and plants (Shenzhen Code, 2018), article 18.5.
  it.each([
    ['Compositae', 'Asteraceae'],
    ['Umbelliferae', 'Apiaceae'],
    ['Labiatae', 'Lamiaceae'],
    ['Leguminosae', 'Fabaceae'],
    ['Cruciferae', 'Brassicaceae'],
    ['Gramineae', 'Poaceae'],
    ['Guttiferae', 'Hypericaceae'],
    ['Palmae', 'Arecaceae'],
  ])('%s is the lasting other name of a family: %s', (old, now) => {
    expect(item(resolve(old)).families).toEqual([normal(now)]);
  });

  it('may name several things, and all count', () => {
    expect(item(resolve('peppermint'))).toMatchObject({ substances: ['menthol'], genera: ['Mentha'] });
    expect(item(resolve('aspirin'))).toMatchObject({
      substances: ['salicylates'],
      medicine: { name: 'acetylsalicylic acid' },
    });
  });

  it('for a herb leads to its plant', () => {
    expect(item(resolve('allergic to chamomile')).genera).toEqual(['Matricaria']);
  });

  it('for a medicine keeps its codes', () => {
    expect(item(resolve('amoxicillin allergy')).medicine).toMatchObject({
      name: 'amoxicillin',
      codes: ['J01CA04'],
    });
    // Penicillins are J01C in the ATC/DDD Index.
    expect(item(resolve('penicillin allergy')).medicine?.group).toBe('penicillins');
    expect(groupTable.groups.find((g) => g.id === 'penicillins')?.atc).toEqual(['J01C']);
  });
});

describe('words that are never resolved', () => {
  it.each(['hay fever', 'Hay-fever', 'milk', 'milk intolerance', 'dairy'])('%s asks', (word) => {
    expect(resolve(word).kind).toBe('ambiguous');
  });

  it.each([
    ['peanuts', 'peanut'],
    ['Composita', 'Compositae'],
    ['latx', 'latex'],
    ['amoxicilin', 'amoxicillin'],
  ])('%s is unknown and suggests %s', (word, suggestion) => {
    const r = resolve(word);
    expect(r.kind).toBe('unknown');
    expect(r.kind === 'unknown' ? r.near : []).toContain(suggestion);
  });

  it.each(['daisy chain', 'no penicillin allergy', 'none', '', 'allergy', 'dust'])(
    '"%s" is unknown: no part of a word is enough',
    (word) => {
      expect(resolve(word).kind).toBe('unknown');
    },
  );
});

describe('what must stay apart', () => {
  it.each([
    ['sulfites', 'sulfonamides'],
    ['bee_products', 'bee_wasp_venom'],
    ['iodine', 'shellfish'],
    ['lactose', 'milk_protein'],
  ])('%s and %s', (a, b) => {
    expect([holds(a, a), holds(b, a), holds(a, b), holds(b, b)]).toEqual([true, false, false, true]);
  });

  it('sulfates are neither, and neither is suggested for them', () => {
    expect(resolve('sulfates')).toEqual({ kind: 'unknown', word: 'sulfates', near: [] });
    expect(resolve('sulfitess')).toMatchObject({ kind: 'unknown' });
  });
});

describe('plants and families', () => {
  it('an allergy to one plant meets a rule on its family', () => {
    expect(holds('asteraceae', 'chamomile')).toBe(true);
    expect(holds('lamiaceae', 'chamomile')).toBe(false);
  });

  it('an allergy to a family meets a rule on each of its plants', () => {
    expect(holds('Matricaria', 'daisy family')).toBe(true);
    expect(holds('Thymus', 'daisy family')).toBe(false);
  });

  it('an allergy to a plant bars that plant and asks about its family', () => {
    expect(holds('Matricaria', 'chamomile')).toBe(true);
    expect(holds('Achillea', 'chamomile')).toBe('unknown');
    expect(holds('Urtica', 'chamomile')).toBe(false);
  });

  it('a cross link asks from either side and never bars', () => {
    expect(holds('asteraceae', 'ragweed')).toBe('unknown');
    expect(holds('pollen_ragweed', 'daisy family')).toBe('unknown');
    expect(holds('Betula', 'birch pollen')).toBe('unknown');
    expect(holds('pollen_birch', 'birch')).toBe('unknown');
    expect(holds('Salix', 'aspirin')).toBe('unknown');
    expect(holds('fragrance', 'latex')).toBe(false);
  });

  it('celery belongs to the Apiaceae', () => {
    expect(holds('apiaceae', 'celery')).toBe(true);
    expect(holds('celery', 'Apium')).toBe(true);
    expect(holds('Foeniculum', 'celeriac')).toBe('unknown');
  });

  it.each([
    ['Quercus', 'fagaceae'],
    ['Rhodiola', 'crassulaceae'],
    ['Ribes', 'grossulariaceae'],
    ['Sambucus', 'adoxaceae'],
    ['Viburnum', 'adoxaceae'],
    ['Apium', 'apiaceae'],
  ])('%s belongs to %s', (genus, family) => {
    expect(familyOf(allergies, genus)).toBe(family);
    expect(holds(family, genus)).toBe(true);
  });

  it('elder and viburnum are found by each name of their family', () => {
    for (const name of [
      'Viburnaceae',
      'Adoxaceae',
      'Sambucaceae',
      'Viburnaceae (Adoxaceae; older texts Caprifoliaceae)',
    ]) {
      expect(familyNamed(allergies, name)).toBe('adoxaceae');
    }
    expect(familyNamed(allergies, 'Nowhereaceae')).toBeNull();
    expect(familyOf(allergies, 'Nowherea')).toBeNull();
  });

  it('a genus that older texts place elsewhere is asked about', () => {
    expect(holds('Sambucus', 'Caprifoliaceae')).toBe('unknown');
    expect(holds('caprifoliaceae', 'elder')).toBe('unknown');
    expect(holds('Allium', 'Liliaceae')).toBe('unknown');
    expect(holds('Lilium', 'Amaryllidaceae')).toBe(false);
  });

  it('a genus that is not listed meets only itself', () => {
    const nowhere = [{ families: [], substances: [], genera: ['Nowherea'] }];
    expect(allergyHolds(allergies, nowhere, 'Nowherea')).toBe(true);
    expect(allergyHolds(allergies, nowhere, 'asteraceae')).toBe(false);
    expect(allergyHolds(allergies, stated('chamomile'), 'Nowherea')).toBe(false);
  });
});

describe('medicines', () => {
  it('count for the substance that they belong with', () => {
    expect(holds('nsaid_hypersensitivity', 'ibuprofen')).toBe(true);
    expect(holds('salicylates', 'ibuprofen')).toBe('unknown');
    expect(holds('salicylates', 'paracetamol')).toBe(false);
    expect(holds('medicine_allergy', 'amoxicillin')).toBe(true);
    expect(holds('nsaid_hypersensitivity', 'painkillers')).toBe('unknown');
  });
});

describe('what a rule may speak of', () => {
  it('is a family by any of its names, a substance, or a genus', () => {
    for (const target of ['asteraceae', 'Compositae', 'salicylates', 'Thymus'])
      expect(knownAllergyTarget(allergies, target)).toBe(true);
    expect(knownAllergyTarget(allergies, 'Nowherea')).toBe(false);
    expect(holds('Compositae', 'chamomile')).toBe(true);
  });

  it('is said in plain words', () => {
    expect(allergyTerm(allergies, 'asteraceae')).toBe('plants of the daisy family (Asteraceae)');
    expect(allergyTerm(allergies, 'salicylates')).toBe('salicylates and aspirin');
    expect(allergyTerm(allergies, 'Thymus')).toBe('plants of the genus Thymus');
  });
});
