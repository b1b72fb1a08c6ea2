import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { dropsToVolume } from '../../src/measure/liquid.ts';
import { convert, inUnit, quantity, ratioOf } from '../../src/measure/quantity.ts';
import { drop, millilitre, mustUnit, per, type Unit } from '../../src/measure/units.ts';

const ACT = 'Weights and Measures Act 1985 (UK), section 1 and Schedule 1';
const HK =
  'Weights and Measures Ordinance (Hong Kong), schedule, Ord. 54/87: the imperial definitions of the UK Act';
const ORDER = "Order in Council of 14 August 1879 (apothecaries' weights and measures)";
const HB44 = 'NIST Handbook 44, Appendix C, notes on British units';
const SP811 = 'NIST Special Publication 811 (2008), B.8';
const OF_FL_OZ = '1/8 and 1/480 of the US fluid ounce of NIST Special Publication 811 (2008), B.8';

/** Two fractions are equal when their cross products are: no decimal is rounded on the way. */
interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

/** `454609/384000` or `28.4130625` as a fraction of whole numbers. */
function fraction(text: string): Fraction {
  const [over = '', under = '1'] = text.split('/');
  const decimals = over.split('.')[1]?.length ?? 0;
  return { over: BigInt(over.replace('.', '')), under: BigInt(under) * 10n ** BigInt(decimals) };
}

const times = (a: Fraction, b: Fraction): Fraction => ({ over: a.over * b.over, under: a.under * b.under });
const inverse = (a: Fraction): Fraction => ({ over: a.under, under: a.over });
const size = (u: Unit): Fraction =>
  times(fraction(u.size[0].toFixed()), inverse(fraction(u.size[1].toFixed())));
const same = (a: Fraction, b: Fraction): boolean => a.over * b.under === b.over * a.under;

// biome-ignore format: a table
const DEFINITIONS: [name: string, code: string, size: string, unit: string, sources: string[]][] = [
  ['gallon, UK imperial', '[gal_br]', '4546.09', 'mL', [ACT, HK, SP811]],
  ['quart, UK imperial', '[qt_br]', '1136.5225', 'mL', [HB44, HK]],
  ['pint, UK imperial', '[pt_br]', '568.26125', 'mL', [HB44, HK]],
  ['gill, UK imperial', '[gil_br]', '142.0653125', 'mL', [HB44, HK, SP811]],
  ['fluid ounce, UK imperial', '[foz_br]', '28.4130625', 'mL', [HK, ORDER, SP811]],
  ['fluid drachm, UK imperial (apothecaries)', '[fdr_br]', '3.5516328125', 'mL', [ORDER, HB44]],
  ['fluid scruple, UK imperial (apothecaries)', '{fl_sc_br}', '454609/384000', 'mL', [HB44]],
  ['minim, UK imperial (apothecaries)', '[min_br]', '454609/7680000', 'mL', [ORDER, HB44]],
  ['gallon, US customary', '[gal_us]', '3785.411784', 'mL', [SP811]],
  ['liquid quart, US customary', '[qt_us]', '946.352946', 'mL', [SP811]],
  ['liquid pint, US customary', '[pt_us]', '473.176473', 'mL', [SP811]],
  ['cup, US customary', '[cup_us]', '236.5882365', 'mL', [SP811]],
  ['gill, US customary', '[gil_us]', '118.29411825', 'mL', [SP811]],
  ['fluid ounce, US customary', '[foz_us]', '29.5735295625', 'mL', [SP811]],
  ['tablespoon, US customary', '[tbs_us]', '14.78676478125', 'mL', [SP811]],
  ['teaspoon, US customary', '[tsp_us]', '4.92892159375', 'mL', [SP811]],
  ['fluid dram, US customary (apothecaries)', '[fdr_us]', '3.6966911953125', 'mL', [OF_FL_OZ]],
  ['minim, US customary (apothecaries)', '[min_us]', '0.061611519921875', 'mL', [OF_FL_OZ]],
  ['pound, avoirdupois (UK and US)', '[lb_av]', '453.59237', 'g', [ACT, HK]],
  ['ounce, avoirdupois (UK and US)', '[oz_av]', '28.349523125', 'g', [ACT, HK, SP811]],
  ['dram, avoirdupois (UK and US)', '[dr_av]', '1.7718451953125', 'g', [HK]],
  ['grain, all three weight systems', '[gr]', '0.06479891', 'g', [HK, ORDER, SP811]],
  ['scruple, apothecaries weight', '[sc_ap]', '1.2959782', 'g', [ORDER, HB44]],
  ['drachm, apothecaries weight', '[dr_ap]', '3.8879346', 'g', [ORDER, HB44]],
  ['apothecaries ounce, apothecaries weight', '[oz_ap]', '31.1034768', 'g', [ACT, ORDER]],
  ['apothecaries pound, apothecaries weight', '[lb_ap]', '373.2417216', 'g', [SP811]],
  ['pennyweight, troy weight', '[pwt_tr]', '1.55517384', 'g', [SP811]],
];

describe('the legal size of a unit', () => {
  it.each(DEFINITIONS)('%s (%s): %s %s by %s', (_, code, printed, unit) => {
    expect(same(size(mustUnit(code)), times(fraction(printed), size(mustUnit(unit))))).toBe(true);
  });
});

// biome-ignore format: a table
const HOUSEHOLD: [code: string, size: string, source: string][] = [
  ['[tsp_m]', '5 mL', 'USP 29-NF 24, general chapter 1221 (teaspoon)'],
  ['[tbs_m]', '15 mL', 'USP 29-NF 24, general chapter 1221 (teaspoon)'],
  ['{dessertspoon}', '10 mL', 'US Navy, NAVEDTRA 14295, table 6-3'],
  ['{wineglass}', '60 mL', 'US Navy, NAVEDTRA 14295, table 6-3'],
  ['{teacup}', '120 mL', 'US Navy, NAVEDTRA 14295, table 6-3'],
  ['{tumbler}', '240 mL', 'US Navy, NAVEDTRA 14295, table 6-3'],
  ['{metric_cup}', '250 mL', 'proposed by the US standards bureau in 1975'],
  ['[cup_m]', '240 mL', '21 CFR 101.9(b)(5)(viii), nutrition labelling'],
  ['[foz_m]', '30 mL', '21 CFR 101.9(b)(5)(viii), nutrition labelling'],
  ['[oz_m]', '28 g', '21 CFR 101.9(b)(5)(viii), nutrition labelling'],
];

describe('a household measure', () => {
  it.each(HOUSEHOLD)('%s: %s by %s', (code, printed) => {
    const [value = '', unit = ''] = printed.split(' ');
    expect(inUnit(quantity(1, code), mustUnit(unit)).value.toFixed()).toBe(value);
  });

  it('that no law or standard fixes is marked so', () => {
    const nominal = HOUSEHOLD.filter(([code]) => mustUnit(code).nominal).map(([code]) => code);
    expect(nominal).toEqual(['{dessertspoon}', '{wineglass}', '{teacup}', '{tumbler}']);
  });
});

/**
 * Worked out by exact rational arithmetic from the definitions above; GNU units 2.22 and ucum-lhc 7.1.10 agree with
 * every one that they define, to within 5e-10.
 */
// biome-ignore format: a table
const CONVERSIONS: [value: string, from: string, to: string, exactly: string, tenFigures: string][] = [
  // US measures in metric
  ['1', '[gal_us]', 'mL', '3785.411784', '3785.411784'],
  ['1', '[qt_us]', 'mL', '946.352946', '946.352946'],
  ['1', '[pt_us]', 'mL', '473.176473', '473.176473'],
  ['1', '[cup_us]', 'mL', '236.5882365', '236.5882365'],
  ['1', '[gil_us]', 'mL', '118.29411825', '118.2941182'],
  ['1', '[foz_us]', 'mL', '29.5735295625', '29.57352956'],
  ['1', '[tbs_us]', 'mL', '14.78676478125', '14.78676478'],
  ['1', '[tsp_us]', 'mL', '4.92892159375', '4.928921594'],
  ['1', '[fdr_us]', 'mL', '3.6966911953125', '3.696691195'],
  ['1', '[min_us]', 'uL', '61.611519921875', '61.61151992'],
  // imperial measures in metric
  ['1', '[gal_br]', 'mL', '4546.09', '4546.09'],
  ['1', '[qt_br]', 'mL', '1136.5225', '1136.5225'],
  ['1', '[pt_br]', 'mL', '568.26125', '568.26125'],
  ['1', '[gil_br]', 'mL', '142.0653125', '142.0653125'],
  ['1', '[foz_br]', 'mL', '28.4130625', '28.4130625'],
  ['1', '[fdr_br]', 'mL', '3.5516328125', '3.551632812'],
  ['1', '{fl_sc_br}', 'mL', '454609/384000', '1.183877604'],
  ['1', '[min_br]', 'uL', '454609/7680', '59.19388021'],
  // imperial beside US
  ['1', '[pt_br]', '[pt_us]', '568261250/473176473', '1.200949926'],
  ['1', '[pt_us]', '[pt_br]', '473176473/568261250', '0.8326741846'],
  ['1', '[foz_br]', '[foz_us]', '454609000/473176473', '0.9607599404'],
  ['1', '[foz_us]', '[foz_br]', '473176473/454609000', '1.040842731'],
  ['1', '[gal_br]', '[gal_us]', '568261250/473176473', '1.200949926'],
  ['1', '[min_br]', '[min_us]', '454609000/473176473', '0.9607599404'],
  // metric in imperial and US
  ['1', 'L', '[pt_br]', '800000/454609', '1.759753986'],
  ['1', 'L', '[pt_us]', '1000000000/473176473', '2.113376419'],
  ['1', 'L', '[foz_br]', '16000000/454609', '35.19507973'],
  ['1', 'L', '[foz_us]', '16000000000/473176473', '33.8140227'],
  ['1', 'mL', '[min_br]', '7680000/454609', '16.89363827'],
  ['1', 'mL', '[min_us]', '2560000000/157725491', '16.2307309'],
  // weights in metric
  ['1', '[lb_av]', 'g', '453.59237', '453.59237'],
  ['1', '[oz_av]', 'g', '28.349523125', '28.34952312'],
  ['1', '[dr_av]', 'g', '1.7718451953125', '1.771845195'],
  ['1', '[gr]', 'mg', '64.79891', '64.79891'],
  ['1', '[sc_ap]', 'g', '1.2959782', '1.2959782'],
  ['1', '[dr_ap]', 'g', '3.8879346', '3.8879346'],
  ['1', '[oz_ap]', 'g', '31.1034768', '31.1034768'],
  ['1', '[lb_ap]', 'g', '373.2417216', '373.2417216'],
  ['1', '[pwt_tr]', 'g', '1.55517384', '1.55517384'],
  // metric in weights, and weight in weight
  ['1', 'g', '[gr]', '100000000/6479891', '15.43235835'],
  ['1', 'kg', '[lb_av]', '100000000/45359237', '2.204622622'],
  ['1', 'kg', '[oz_av]', '1600000000/45359237', '35.27396195'],
  ['1', '[oz_av]', '[gr]', '437.5', '437.5'],
  ['1', '[oz_ap]', '[oz_av]', '192/175', '1.097142857'],
  ['1', '[lb_av]', '[oz_ap]', '175/12', '14.58333333'],
  // as they stand in a recipe
  ['0.5', '[pt_br]', 'mL', '284.130625', '284.130625'],
  ['2', '[pt_br]', 'mL', '1136.5225', '1136.5225'],
  ['3', '[cup_us]', 'mL', '709.7647095', '709.7647095'],
  ['4', '[foz_br]', 'mL', '113.65225', '113.65225'],
  ['4', '[foz_us]', 'mL', '118.29411825', '118.2941182'],
  ['6', '[fdr_br]', 'mL', '21.309796875', '21.30979688'],
  ['15', '[min_br]', 'mL', '0.887908203125', '0.8879082031'],
  ['15', '[min_us]', 'mL', '0.924172798828125', '0.9241727988'],
  ['3', '[oz_av]', 'g', '85.048569375', '85.04856938'],
  ['8', '[oz_av]', 'g', '226.796185', '226.796185'],
  ['2.5', '[lb_av]', 'g', '1133.980925', '1133.980925'],
  ['10', '[gr]', 'mg', '647.9891', '647.9891'],
  ['5', '[gr]', 'mg', '323.99455', '323.99455'],
  ['30', '[gr]', 'g', '1.9439673', '1.9439673'],
  ['2', '[dr_ap]', 'g', '7.7758692', '7.7758692'],
  ['500', 'mL', '[foz_br]', '8000000/454609', '17.59753986'],
  ['500', 'mL', '[foz_us]', '8000000000/473176473', '16.90701135'],
  ['100', 'g', '[oz_av]', '160000000/45359237', '3.527396195'],
  ['750', 'mL', '[pt_br]', '600000/454609', '1.31981549'],
  // spoons and cups
  ['1', '[tsp_m]', '[tsp_us]', '160000000/157725491', '1.014420681'],
  ['1', '[tbs_us]', '[tbs_m]', '0.98578431875', '0.9857843188'],
  ['1', '{metric_cup}', '[cup_us]', '500000000/473176473', '1.056688209'],
];

describe('a conversion', () => {
  it.each(CONVERSIONS)('%s %s in %s is %s, or %s', (value, from, to, exactly, tenFigures) => {
    const [a, b] = [mustUnit(from), mustUnit(to)];
    expect(same(times(fraction(value), times(size(a), inverse(size(b)))), fraction(exactly))).toBe(true);

    const converted = convert(quantity(value, a), b);
    if (!converted.ok) throw new Error(converted.why);
    const [over = '', under = '1'] = exactly.split('/');
    expect(converted.value.value.eq(exact(over).div(exact(under)))).toBe(true);
    expect(converted.value.value.toSignificantDigits(10).toFixed()).toBe(tenFigures);
  });

  it('100 drops in mL is 5, but only where the dropper gives 20 drops/mL: by themselves drops have no volume', () => {
    // GNU units 2.22 and ucum-lhc 7.1.10 hold a drop for 0.05 mL whatever the liquid.
    expect(convert(quantity(100, drop), millilitre).ok).toBe(false);
    const counted = dropsToVolume(quantity(100, drop), quantity(20, per(drop, millilitre)));
    expect(counted.ok && counted.value.value.toFixed()).toBe('5');
  });
});

// biome-ignore format: a table
const SEVEN_FIGURES: [code: string, printed: string, unit: string][] = [
  ['[cup_us]', '236.5882', 'mL'],
  ['[foz_us]', '29.57353', 'mL'],
  ['[gal_br]', '4546.09', 'mL'],
  ['[gal_us]', '3785.412', 'mL'],
  ['[gil_br]', '142.0653', 'mL'],
  ['[gr]', '0.06479891', 'g'],
  ['[oz_av]', '28.34952', 'g'],
  ['[oz_ap]', '31.10348', 'g'],
  ['[foz_br]', '28.41306', 'mL'],
  ['[pt_us]', '473.1765', 'mL'],
  ['[lb_av]', '453.5924', 'g'],
  ['[tbs_us]', '14.78676', 'mL'],
];

describe('the factors that NIST Special Publication 811 (2008), B.8, prints to seven figures', () => {
  it.each(SEVEN_FIGURES)('%s: %s %s', (code, printed, unit) => {
    const factor = inUnit(quantity(1, code), mustUnit(unit)).value;
    expect(factor.toSignificantDigits(7).toFixed()).toBe(printed);
  });
});

const CFR = '21 CFR 101.9(b)(5)(viii), through UCUM ticket 120';
const TECHNICIANS = 'pharmacy technician review tables (2026)';
const NAVY = 'US Navy, NAVEDTRA 14295';
const USP = 'USP 29-NF 24, general chapter 1221';
const NURSES = 'a reference handbook for nurses, tables of measures';
const ARMY = 'US Army Medical Department Center and School, Subcourse MD0913';
const DENTAL = 'Manual of dental materia medica and therapeutics, table of equivalents';

/** The rule of thumb, the unit it stands for, and by how much per cent it is too large (4 figures, worked out). */
// biome-ignore format: a table
const RULES_OF_THUMB: [rule: string, code: string, percent: string, from: string][] = [
  ['30 mL', '[foz_us]', '1.442', `${CFR}; ${TECHNICIANS}`],
  ['30 mL', '[foz_br]', '5.585', `${CFR}; ${TECHNICIANS}`],
  ['480 mL', '[pt_us]', '1.442', `${NAVY}; ${TECHNICIANS}`],
  ['480 mL', '[pt_br]', '-15.53', `${NAVY}; ${TECHNICIANS}`],
  ['5 mL', '[tsp_us]', '1.442', USP],
  ['5 mL', '[fdr_us]', '35.26', NAVY],
  ['5 mL', '[fdr_br]', '40.78', NAVY],
  ['15 mL', '[tbs_us]', '1.442', USP],
  ['0.06 mL', '[min_us]', '-2.616', NURSES],
  ['0.06 mL', '[min_br]', '1.362', NURSES],
  ['60 mg', '[gr]', '-7.406', ARMY],
  ['65 mg', '[gr]', '0.3103', `${TECHNICIANS}; ${NAVY}`],
  ['28 g', '[oz_av]', '-1.233', CFR],
  ['454 g', '[lb_av]', '0.08987', TECHNICIANS],
  ['4 g', '[dr_ap]', '2.882', DENTAL],
];

describe('the rules of thumb are not what the program converts by', () => {
  it.each(RULES_OF_THUMB)('%s for one %s is %s %% too much (%s)', (rule, code, percent) => {
    const [value = '', unit = ''] = rule.split(' ');
    const error = ratioOf(quantity(value, unit), quantity(1, code)).minus(1).times(100);
    expect(error.toSignificantDigits(4).toFixed()).toBe(percent);
  });

  it(`2.2 pounds for a kilogram makes a pound 0.2101 % too heavy (${TECHNICIANS})`, () => {
    const pound = quantity(exact(1000).div(exact('2.2')), 'g');
    expect(ratioOf(pound, quantity(1, '[lb_av]')).minus(1).times(100).toSignificantDigits(4).toFixed()).toBe(
      '0.2101',
    );
  });
});

describe('words that are taken for each other', () => {
  it.each([
    ['a UK pint in US pints', '[pt_br]', '[pt_us]', '1.200949926'],
    ['a UK fluid ounce in US fluid ounces: the other way round', '[foz_br]', '[foz_us]', '0.9607599404'],
    ['fluid ounces in a UK pint', '[pt_br]', '[foz_br]', '20'],
    ['fluid ounces in a US pint', '[pt_us]', '[foz_us]', '16'],
    ["an apothecaries' drachm in avoirdupois drams", '[dr_ap]', '[dr_av]', '2.194285714'],
    ['a gram read for a grain', 'g', '[gr]', '15.43235835'],
    ['teaspoons in a tablespoon', '[tbs_m]', '[tsp_m]', '3'],
  ])('%s', (_, from, to, figures) => {
    expect(inUnit(quantity(1, from), mustUnit(to)).value.toSignificantDigits(10).toFixed()).toBe(figures);
  });
});
