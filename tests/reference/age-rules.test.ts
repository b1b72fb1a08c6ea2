import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { byShare, type Grown, shareFor } from '../../src/dosing/age-rules.ts';
import { openFolder, readTable } from '../../src/folder/folder.ts';
import { birthFromAge, parseAge } from '../../src/measure/age.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { given } from '../../src/measure/figure.ts';
import { parseQuantity } from '../../src/measure/parse.ts';
import { must } from '../must.ts';

/** Worked examples as they are printed; where a page rounds or errs, the rule's own wording is what counts. */
const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TABLE = must(await readTable(must(await openFolder(ROOT, ROOT)), 'age-rules')).value;
const ON = must(parseDate('2026-05-02'));
const rule = (id: string) => {
  const found = TABLE.rules.find((r) => r.id === id);
  if (!found) throw new Error(`no rule ${id}`);
  return found;
};
const who = (age: string, weight?: string, height?: string): Grown => ({
  birth: birthFromAge(must(parseAge(age)), ON),
  on: ON,
  weight: weight ? must(parseQuantity(weight)) : null,
  height: height ? must(parseQuantity(height)) : null,
});
const dose = (id: string, adult: string, of: Grown, places = 2): string => {
  const share = shareFor(rule(id), TABLE, of);
  if (!share.ok) return share.why;
  return byShare(given(must(parseQuantity(adult)), 'adult dose'), share.share, id)
    .value.value.toDecimalPlaces(places)
    .toFixed();
};

describe('rules of age', () => {
  it.each([
    // Prescription writing, Metrology: 20 grains at 4 years.
    ['young', '20 grains', who('4 years'), '5'],
    // Australian Mathematical Sciences Institute, evaluating formulas, question 2.
    ['young', '600 mg', who('4 years'), '150'],
    ['clark-68.18', '600 mg', who('4 years', '17 kg'), '149.6'],
    // Cowling's rule, teaching page: 25 mg at 5 years, by the next birthday.
    ['cowling', '25 mg', who('5 years'), '6.25'],
    // Prescription writing, Metrology.
    ['dilling', '20 grains', who('4 years'), '4'],
    // Pharmacy teaching site, how to calculate a child's dose: 60 mg at 10 months.
    ['fried', '60 mg', who('10 months'), '4'],
    // Encyclopaedia, Clark's rule: 30 mg at 30 lb.
    ['clark-lb', '30 mg', who('4 years', '30 lb'), '6'],
    // Formulary of the twentieth century, doses for adults and children: half of it at 75 lb.
    ['clark-lb', '1 g', who('10 years', '75 lb'), '0.5'],
  ])('%s of %s, as it is printed', (id, adult, of, printed) => {
    expect(dose(id, adult, of, id === 'clark-68.18' ? 1 : 2)).toBe(printed);
  });

  // Manual of dental materia medica, after the United States Dispensatory: printed as fractions.
  it.each([
    ['2 years', '1/7'],
    ['3 years', '1/5'],
    ['4 years', '1/4'],
    ['6 years', '1/3'],
    ['12 years', '1/2'],
  ])('Young at %s is %s', (age, fraction) => {
    const [top = 1, bottom = 1] = fraction.split('/').map(Number);
    expect(dose('young', '1000 mg', who(age), 6)).toBe(String(Number(((1000 * top) / bottom).toFixed(6))));
  });

  it("is Young's rule in months the same rule, as a nurses' handbook prints it", () => {
    // 144 months are 12 years: 6 / (6 + 144) = 0.5 / (0.5 + 12).
    expect(dose('young-months', '150 mg', who('6 months'))).toBe('6');
    expect(dose('young', '150 mg', who('6 months'))).toContain('only a rule for infants');
  });

  // A printed book example divides the present age by 24, which the rule's own wording does not: 5.21 mg instead of 6.25.
  it("Cowling's rule goes by the next birthday, whatever a book example does", () => {
    expect(dose('cowling', '25 mg', who('5 years'))).not.toBe('5.21');
    expect(dose('cowling', '24 mg', who('5 years'))).toBe('6');
  });

  // Two teaching pages print wrong results for small children; the formula is what counts.
  it('takes the surface after Mosteller: 100 cm and 16 kg are 0.6667 m2', () => {
    expect(dose('surface', '1.73 g', who('4 years', '16 kg', '100 cm'), 4)).toBe('0.6667');
    expect(dose('surface', '300 mg', who('4 years', '16 kg', '100 cm'), 1)).toBe('115.6');
    // General reference article: 61 in and 90.7 kg are 1.98 m2, which is above the adult's 1.73.
    expect(dose('surface-1.8', '1.8 g', who('17 years', '90.7 kg', '61 in'))).toBe('1.8');
  });

  it.each([
    // WHO, Pocket Book of Hospital Care for Children, annex 2.
    ['10 kg', '72 cm', '0.45'],
    // Study site for pharmacy technicians, which reckons by inches and pounds over 3131.
    ['33 lb', '33 in', '0.59'],
  ])('%s and %s are %s m2', (weight, height, printed) => {
    expect(dose('surface', '1.73 g', who('2 years', weight, height))).toBe(printed);
  });

  it.each([
    ['18 kg', '36'],
    ['30 kg', '60'],
    ['45 kg', '75'],
    ['80 kg', '100'],
  ])('Salisbury at %s is %s per cent (Br J Anaesth 1997;78:601-5)', (weight, percent) => {
    expect(dose('salisbury', '100 mg', who('10 years', weight))).toBe(percent);
  });

  // Food and Drug Regulations, C.01.021: 10 to 14, 5 to 9 and 2 to 4 completed years.
  it.each([
    ['2 years', '166.67'],
    ['4 years', '166.67'],
    ['5 years', '250'],
    ['9 years', '250'],
    ['10 years', '500'],
    ['14 years', '500'],
  ])('the statutory fraction of Canada at %s', (age, of1000) => {
    expect(dose('canada', '1000 mg', who(age))).toBe(of1000);
  });
  it('has no statutory fraction under 2 years, nor from 15', () => {
    expect(dose('canada', '1 g', who('23 months'))).toContain('only a rule for infants');
    expect(dose('canada', '1 g', who('15 years'))).toContain('it is for');
  });

  it('sets every rule beside the others for one child of 7 years, 24 kg and 122 cm', () => {
    const child = who('7 years', '24 kg', '122 cm');
    const beside = TABLE.rules.filter((r) => r.variant_of === undefined && shareFor(r, TABLE, child).ok);
    expect(Object.fromEntries(beside.map((r) => [r.id, dose(r.id, '100 mg', child)]))).toEqual({
      canada: '25',
      cowling: '33.33',
      gaubius: '33.33',
      dilling: '35',
      clark: '35.27',
      young: '36.84',
      augsberger: '46',
      salisbury: '48',
      percentage: '50',
      surface: '52.13',
    });
  });

  // Textbook of dental materia medica, after the United States Dispensatory. Its rows touch at 4, 7 and 14 years.
  it.each([
    ['2 years', '1/8'],
    ['3 years', '1/6'],
    ['4 years', '1/4'],
    ['5 years', '1/3'],
    ['7 years', '1/3'],
    ['8 years', '1/2'],
    ['14 years', '1/2'],
    ['15 years', '2/3'],
  ])('Gaubius at %s is %s, the smaller where two rows touch', (age, fraction) => {
    const [top = 1, bottom = 1] = fraction.split('/').map(Number);
    expect(dose('gaubius', '1000 mg', who(age), 6)).toBe(String(Number(((1000 * top) / bottom).toFixed(6))));
  });

  // Compounding reference, normal doses for children: rows for 1, 3, 7 and 12 years.
  it.each([
    ['2 years', '25'],
    ['3 years', '33'],
    ['6 years', '33'],
    ['7 years', '50'],
    ['12 years', '75'],
    ['17 years', '75'],
  ])('the percentage method at %s, the smaller between two rows', (age, percent) => {
    expect(dose('percentage', '100 mg', who(age))).toBe(percent);
  });

  // In print are 67, 68, 68.18, 70 and 75 kg: the results differ by up to 12 per cent.
  it("keeps Clark's five divisors apart, and its own is 150 lb", () => {
    const child = who('7 years', '34 kg');
    expect(
      ['clark-67', 'clark-68', 'clark-68.18', 'clark-70', 'clark-75'].map((id) => dose(id, '100 mg', child)),
    ).toEqual(['50.75', '50', '49.87', '48.57', '45.33']);
    expect(dose('clark', '150 mg', who('7 years', '50 lb'))).toBe('50');
    expect(dose('clark-lb', '150 mg', who('7 years', '50 lb'))).toBe('50');
  });

  // Textbook of materia medica, 1905: 5/6 at 50, 4/5 at 60 and 2/3 at 80 years, and nothing between.
  it.each([
    ['46 years', '83.33'],
    ['50 years', '83.33'],
    ['51 years', '80'],
    ['60 years', '80'],
    ['61 years', '66.67'],
    ['80 years', '66.67'],
    ['97 years', '66.67'],
  ])('older adults at %s', (age, of100) => {
    expect(dose('older', '100 mg', who(age))).toBe(of100);
  });

  it('says why not, where something is missing', () => {
    expect(dose('clark', '1 g', who('7 years'))).toBe('the weight was not given');
    expect(dose('surface', '1 g', who('7 years', '24 kg'))).toBe('the height was not given');
    expect(dose('surface', '1 g', who('7 years', undefined, '122 cm'))).toBe('the weight was not given');
  });

  it('every rule, warning and limit names a source, and no variant stands for itself', () => {
    const facts = [...TABLE.rules, ...TABLE.warnings, ...TABLE.plausible, TABLE.surface, TABLE.infants_under];
    for (const { source } of facts) expect(TABLE.sources).toHaveProperty(source);
    for (const r of TABLE.rules) {
      if (r.variant_of !== undefined) expect(rule(r.variant_of).variant_of).toBeUndefined();
    }
  });
});
