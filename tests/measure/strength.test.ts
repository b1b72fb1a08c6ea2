import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseQuantity } from '../../src/measure/parse.ts';
import type { Quantity } from '../../src/measure/quantity.ts';
import type { Result } from '../../src/measure/result.ts';
import {
  asAmountStrength,
  held,
  inPartsPerMillion,
  makes,
  massToVolumeStrength,
  oneIn,
  partsPerMillion,
  ratioStrength,
  strengthOf,
} from '../../src/measure/strength.ts';
import { write } from '../../src/measure/write.ts';

function q(text: string): Quantity {
  const r = parseQuantity(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

const said = (r: Result<Quantity>): string => (r.ok ? write(r.value, 'exact') : `refused: ${r.why}`);
const number = (r: Result<{ toFixed(): string }>): string => (r.ok ? r.value.toFixed() : `refused: ${r.why}`);

describe('what a quantity holds', () => {
  it('mass in mass, volume in volume, mass in volume, volume in mass', () => {
    expect(said(held(q('4 % m/m'), q('240 g')))).toBe('9.6 g');
    expect(said(held(q('2 % v/v'), q('0.5 L')))).toBe('10 mL');
    expect(said(held(q('0.5 % w/v'), q('1.25 L')))).toBe('6.25 g');
    expect(said(held(q('1.5 % v/m'), q('200 g')))).toBe('3 mL');
  });

  it('a content for each g or mL is a strength too', () => {
    expect(said(held(q('30 mg/5 mL'), q('100 mL')))).toBe('0.6 g');
    expect(said(held(q('25 mg/g'), q('2 g')))).toBe('0.05 g');
    expect(said(held(q('12 mL/kg'), q('50 g')))).toBe('0.6 mL');
  });

  it('a bare percent has no meaning until its basis is said', () => {
    expect(said(held(q('5 %'), q('100 g')))).toBe(
      'refused: 5 % lacks its basis: write % m/m, % w/v or % v/v',
    );
  });

  it('refuses an amount of the wrong kind: 5 % w/v of a weight is not 5 g in 100 g', () => {
    expect(said(held(q('5 % w/v'), q('100 g')))).toBe(
      'refused: 5 % w/v is reckoned with a volume: write such as 100 mL, not 100 g',
    );
    expect(said(held(q('5 % m/m'), q('100 mL')))).toMatch(/^refused: 5 % m\/m is reckoned with a mass/);
    expect(said(held(q('5 % v/v'), q('100 g')))).toMatch(/^refused/);
    expect(said(held(q('5 % v/m'), q('100 mL')))).toMatch(/^refused/);
  });

  it('refuses more than the whole and less than nothing, but g in 100 mL may pass a hundred', () => {
    const minus = (text: string): Quantity => ({ ...q(text), value: q(text).value.neg() });
    expect(said(held({ ...q('5 % m/m'), value: exact(101) }, q('100 g')))).toMatch(/more than the whole$/);
    expect(said(held({ ...q('5 % w/v'), value: exact(126) }, q('100 mL')))).toBe('126 g');
    expect(said(held(minus('5 % m/m'), q('100 g')))).toMatch(/below 0$/);
    expect(said(held(q('5 % m/m'), minus('100 g')))).toMatch(/below 0$/);
    expect(said(held(q('3 doses'), q('100 g')))).toMatch(/is not a strength/);
  });
});

describe('how much can be made', () => {
  it('is the other way round', () => {
    expect(said(makes(q('5 % w/v'), q('20 g')))).toBe('400 mL');
    expect(said(makes(q('10 % m/m'), q('5 g')))).toBe('50 g');
    expect(said(makes(q('5 mg/10 mL'), q('150 micrograms')))).toBe('0.3 mL');
    expect(said(makes(q('2 % v/v'), q('20 g')))).toMatch(/^refused: 2 % v\/v is reckoned with a volume/);
  });

  it('at no strength is no end of it, and is refused', () => {
    expect(said(makes(q('0 % w/v'), q('20 g')))).toMatch(/^refused: a strength of 0/);
    expect(said(held(q('0 % w/v'), q('20 mL')))).toBe('0 g');
  });

  it('a strength that does not end comes back whole', () => {
    expect(said(makes(q('1/3 % w/v'), q('1 g')))).toBe('300 mL');
  });
});

describe('the strength of what was made', () => {
  it('has the basis that the two units make', () => {
    expect(said(strengthOf(q('5 g'), q('500 mL')))).toBe('1 % w/v');
    expect(said(strengthOf(q('1 mg'), q('5 mL')))).toBe('0.02 % w/v');
    expect(said(strengthOf(q('30 g'), q('1 kg')))).toBe('3 % m/m');
    expect(said(strengthOf(q('1 mL'), q('100 g')))).toBe('1 % v/m');
  });

  it('needs a whole, and no more in it than there is', () => {
    expect(said(strengthOf(q('5 g'), q('0 mL')))).toMatch(/^refused: a strength needs a whole above 0/);
    expect(said(strengthOf(q('5 g'), q('4 g')))).toMatch(/more than the whole$/);
    expect(said(strengthOf(q('5 drops'), q('4 mL')))).toMatch(/^refused/);
  });
});

describe('other ways of writing a strength', () => {
  it('1 in n and back', () => {
    expect(said(ratioStrength(exact(500), 'w/v'))).toBe('0.2 % w/v');
    expect(number(oneIn(q('0.2 % w/v')))).toBe('500');
    expect(number(oneIn(q('5 mg/mL')))).toBe('200');
    expect(said(ratioStrength(exact(0), 'w/v'))).toMatch(/^refused/);
    expect(said(ratioStrength(exact('0.5'), 'm/m'))).toMatch(/more than the whole$/);
    expect(number(oneIn(q('0 % w/v')))).toMatch(/^refused/);
  });

  it('mg in a mL, which only % w/v has of its own', () => {
    expect(said(asAmountStrength(q('36 % w/v')))).toBe('360 mg/mL');
    expect(said(asAmountStrength(q('30 mg/5 mL')))).toBe('6 mg/mL');
    expect(said(asAmountStrength(q('36 % m/m')))).toMatch(/^refused: 36 % m\/m is not % w\/v/);
  });

  it('parts in a million and back', () => {
    expect(said(partsPerMillion(exact(40), 'w/v'))).toBe('0.004 % w/v');
    expect(number(inPartsPerMillion(q('0.004 % w/v')))).toBe('40');
  });

  it('% m/m becomes % w/v with the density of the finished liquid, and with nothing else', () => {
    expect(said(massToVolumeStrength(q('16 % w/w'), q('1.11 g/mL')))).toBe('17.76 % w/v');
    expect(said(massToVolumeStrength(q('16 % w/v'), q('1.11 g/mL')))).toMatch(/^refused/);
    expect(said(massToVolumeStrength(q('16 % v/m'), q('1.11 g/mL')))).toMatch(
      /^refused: 16 % v\/m is not % m\/m/,
    );
    expect(said(massToVolumeStrength(q('16 % w/w'), q('1110 g/mL')))).toMatch(/^refused/);
  });
});
