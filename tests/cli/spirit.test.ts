import { describe, expect, it } from 'vitest';
import { run } from './scruple.ts';

const json = (args: readonly string[]) => JSON.parse(run(['spirit', ...args, '--json']).out).result;
const mL = (q: { value: string }): number => Number(q.value);

describe('spirit, diluting', () => {
  // OIML R 22 by hand, from the printed tables: 100 mL of 70 % from 96 % take 72.917 mL and 29.74 mL of water.
  it('gives the volumes that the printed alcoholometric tables give', () => {
    const r = json(['--to', '70 %', '--make', '100 mL', '--from', '96 %']);
    expect(mL(r.stock)).toBeCloseTo(72.917, 2);
    expect(mL(r.water)).toBeCloseTo(29.74, 2);
    expect(mL(r.masses.mixture)).toBeCloseTo(88.556, 2);
  });

  // British Pharmacopoeia 1988, ethanol (20 per cent): 207 mL of ethanol (96 per cent) to 1000 mL. The figure implies
  // a strong spirit of 96.3 % v/v, the middle of 96.0 to 96.6.
  it('reproduces the pharmacopoeia with the strong spirit that its figure implies', () => {
    expect(mL(json(['--to', '20 %', '--make', '1 L', '--from', '96.3 %']).stock)).toBeCloseTo(207.7, 1);
  });

  it('never subtracts volumes: a litre of 96 % brought to 45 % does not take what is missing from 2133 mL', () => {
    const r = json(['--to', '45 %', '--use', '1 L', '--from', '96 %']);
    expect(mL(r.mixture)).toBeCloseTo(2133.33, 1);
    expect(mL(r.water)).toBeCloseTo(1199.1, 0);
    expect(mL(r.water)).toBeGreaterThan(2133.33 - 1000 + 60);
    expect(mL(r.contraction)).toBeCloseTo(mL(r.stock) + mL(r.water) - mL(r.mixture), 6);
  });

  it('says that the strength of a label is nominal, and carries the caution once', () => {
    const { out, code } = run(['spirit', '--to', '60 %', '--make', '500 mL', '--from', '96.3 %']);
    expect(code).toBe(0);
    expect(out).toContain('nominal');
    expect(out.match(/For trained practitioners/g)).toHaveLength(1);
  });
});

describe('spirit, mixing', () => {
  // Published demonstration with the International Alcoholometric Tables: 1 L of 80 % and 1 L of water come to about
  // 1960 mL of 40.8 %.
  it('knows what comes of equal volumes', () => {
    const r = json(['--mix', '1 L of 80 %', '--mix', '1 L of water']);
    expect(mL(r.mixture)).toBeGreaterThan(1955);
    expect(mL(r.mixture)).toBeLessThan(1965);
    expect(mL(r.strength)).toBeCloseTo(40.8, 1);
  });

  it('solves the split of two spirits and shows the alligation', () => {
    const { out } = run(['spirit', '--to', '50 %', '--make', '1 L', '--from', '96 %', '--from', '40 %']);
    expect(out).toContain('Alligation by mass');
    const r = json(['--to', '50 %', '--make', '1 L', '--from', '96 %', '--from', '40 %']);
    expect(mL(r.mixture)).toBeCloseTo(1000, 6);
    expect(mL(r.strength)).toBeCloseTo(50, 6);
  });

  it('says what is not reachable, and the nearest that is', () => {
    const r = json(['--to', '30 %', '--make', '1 L', '--from', '96 %', '--from', '40 %']);
    expect(r).toMatchObject({ reachable: false, nearest: { value: '40', unit: '%{v/v}' } });
  });
});

describe('spirit, a hydrometer', () => {
  it('is corrected for the temperature: cold spirit reads weak', () => {
    expect(mL(json(['--reading', '62 %', '--temperature', '12 C']).strength)).toBeGreaterThan(64);
    expect(mL(json(['--reading', '62 %', '--temperature', '20 C']).strength)).toBeCloseTo(62, 6);
  });

  it('is refused for a tincture', () => {
    const { code, err } = run(['spirit', '--reading', '62 %', '--temperature', '12 C', '--of', 'tincture']);
    expect(code).toBe(2);
    expect(err).toContain('clean spirit only');
  });
});

describe('spirit, misused', () => {
  it.each([
    [['--to', '120 %', '--make', '1 L', '--from', '96 %'], 'above 100 %'],
    [['--to', '60 %', '--make', '1 L'], 'the one in hand'],
    [['--to', '60 %', '--from', '96 %'], 'how much?'],
    [['--to', '97 %', '--make', '1 L', '--from', '96 %'], '97 %'],
    [['--reading', '62 %'], '--temperature'],
    [['--reading', '62 %', '--temperature', '50 C'], '40 C'],
    [['--mix', '1 L'], 'of which'],
    [['--make', '1 L', '--use', '1 L', '--to', '60 %', '--from', '96 %'], 'give one'],
    [['--to', '60 %', '--make', '1,5 L', '--from', '96 %'], 'comma'],
  ])('%j', (args, words) => {
    const { code, err, out } = run(['spirit', ...args]);
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(out).toBe('');
  });
});
