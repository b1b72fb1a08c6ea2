import { describe, expect, it } from 'vitest';
import { byMass, made, method, refused, shown, weights } from './formula.ts';
import { figure, herbDose, product } from './product.ts';

const ointment = (lines: string, directions = 'take: 2 g, times: 2'): string => `
route: cutaneous
ingredients:
${lines.trim().replace(/^ */gm, '  ')}
preparation: {kind: ointment}
directions: {${directions}}`;

const SALVE = `
- {herb: chamomile-flower, form: infused-oil, ratio: 1:5 w/w, percent: 60}
- {vehicle: olive-oil, parts: 1}
- {vehicle: beeswax, percent: 18}`;

describe('an ointment', () => {
  it('is weighed, all of it', async () => {
    expect(weights(await made(ointment(SALVE), byMass('50 g')))).toEqual({
      'chamomile-flower': '30 g',
      'olive-oil': '11 g',
      beeswax: '9 g',
    });
  });

  it('holds the herb that its oil was drawn from', async () => {
    const dose = herbDose(await made(ointment(SALVE), byMass('50 g')));
    // 2 g x 60 % = 1.2 g of oil, / 5 = 0.24 g of herb; 30 g / 5 = 6 g in 50 g are 12 %.
    expect(shown(dose.amounts?.single)).toBe('0.24 g');
    expect(dose.concentrations.map(shown)).toEqual(['12 %']);
  });

  it('of an oil by volume counts by the density that the formula gives', async () => {
    const byVolume = SALVE.replace('1:5 w/w,', '1:5 w/v, density: 0.92 g/mL,');
    const dose = herbDose(await made(ointment(byVolume), byMass('50 g')));
    // 1.2 g of oil are 1.2 / 0.92 = 1.3043 mL, / 5 = 0.26087 g.
    expect(figure(dose.amounts?.single)).toBeCloseTo(0.26087, 5);
  });

  it('of an oil by volume whose weight nobody knows is refused', async () => {
    expect(await refused(ointment(SALVE.replace('1:5 w/w', '1:5 w/v')))).toBe(
      'chamomile-flower: a ratio of 1:5 w/v is counted by the other measure than the line is: add the density: of its infused-oil',
    );
  });

  it('with powder in it counts the powder as it is', async () => {
    const powdered = `
- {herb: chamomile-flower, form: powder, percent: 10}
- {vehicle: wool-fat, parts: 1}`;
    expect(shown(herbDose(await made(ointment(powdered), byMass('50 g'))).amounts?.single)).toBe('0.2 g');
  });

  // British Pharmaceutical Codex 1911: wax at 15 to 20 % in ointments of oil; USP IX, simple ointment: 20 %.
  it('tells how much of it is wax, and how to melt it', async () => {
    const batch = await made(ointment(SALVE), byMass('50 g'));
    expect(product(batch).facts.map((f) => `${f.label} ${shown(f.value as never)}`)).toEqual([
      'wax 18 % m/m',
    ]);
    // Olive oil is all fat; the infused oil is not counted.
    expect(figure(product(batch).contents.byMass.get('fat'))).toBeCloseTo(22, 12);
    expect(method(batch)).toEqual([
      'Melt the wax and fats over warm water, the hardest first.',
      'Stir in the oils warm.',
      'Test a drop on a cold plate; stir until it sets, then fill the jars.',
    ]);
  });

  it('with a tincture warns that it may part', async () => {
    const watery = `
- {herb: chamomile-flower, form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v, percent: 10}
- {vehicle: wool-fat, parts: 1}`;
    const batch = await made(ointment(watery), byMass('50 g'));
    expect(method(batch)[2]).toMatch(/^Stir in what is watery last/);
    // 0.2 g of tincture / (5 x 0.93954 g/mL; OIML R 22, table IVa, 45 % v/v) = 0.042574 g
    expect(figure(herbDose(batch).amounts?.single)).toBeCloseTo(0.042574, 5);
  });

  it('thinly put on has no dose', async () => {
    const batch = await made(ointment(SALVE, 'apply: thinly, times: 2-3'), byMass('50 g'));
    expect([batch.taking, batch.supply, herbDose(batch).amounts]).toEqual([null, null, null]);
  });

  it('of a vehicle that is not in the table is refused', async () => {
    expect(await refused(ointment(SALVE.replace('beeswax', 'bees-wax')))).toMatch(
      /^"bees-wax" is not among the vehicles: did you mean beeswax/,
    );
  });
});
