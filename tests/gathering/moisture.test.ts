import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dryFrom, freshFor, moistureHad, moistureOfYield } from '../../src/gathering/moisture.ts';
import { type Figure, given } from '../../src/measure/figure.ts';
import { type Quantity, quantity, type Range } from '../../src/measure/quantity.ts';
import { write, writeRange } from '../../src/measure/write.ts';
import { q, value, why } from '../compounding/formula.ts';

const figure = (text: string): Figure<Quantity> => given(q(text), text);
const share = (n: number | string): Quantity => quantity(n, '%');
const moistures = (low: string, high: string, left: string) => ({
  fresh: given<Range>({ low: share(low), high: share(high) }, 'fresh'),
  dry: given(share(left), 'dry'),
});
const shown = (r: Range): string => writeRange(r);

describe('drying', () => {
  // International Rice Research Institute, Moisture content calculations: 1000 kg from 25 % to 14 % leave 872 kg.
  // Subtracting 25 - 14 = 11 % would say 890 kg.
  it('1000 kg from 25 % to 14 % are 872 kg, not 890', () => {
    const done = dryFrom(figure('1000 kg'), moistures('25', '25', '14'));
    // 1000 x 0.75 / 0.86 = 872.0930...
    expect(done.value.low?.value.toDecimalPlaces(1).toFixed()).toBe('872093');
  });

  it('800 g at 78 % are done at 200 g for 12 %', () => {
    // 800 x 0.22 / 0.88
    expect(shown(dryFrom(figure('800 g'), moistures('78', '78', '12')).value)).toBe('200 g');
  });

  it('the wettest leaves the least', () => {
    // 800 x 0.20 / 0.88 and 800 x 0.25 / 0.88
    expect(shown(dryFrom(figure('800 g'), moistures('75', '80', '12')).value)).toBe('181.8 to 227.3 g');
  });
});

describe('how much fresh', () => {
  it('for 200 g dry at 12 % of a leaf of 78 %: 800 g', () => {
    expect(shown(freshFor(figure('200 g'), moistures('78', '78', '12')).value)).toBe('800 g');
  });

  it('of a range of moisture is a range, the driest needs least', () => {
    // 200 x 0.88 / 0.25 and 200 x 0.88 / 0.20
    expect(shown(freshFor(figure('200 g'), moistures('75', '80', '12')).value)).toBe('704 to 880 g');
  });

  // Russian reference table of drying yields: 100 kg of nettle leaf give 20 kg, which at 12 % left is 82.4 % of water.
  it('a yield of 20 % with 12 % left means 82.4 % of water', () => {
    const cited = { key: 'y', body: 'a table', title: 'yields', reading: 'restated' } as const;
    const range = { low: share(20), high: share(20) };
    const { value: found } = moistureOfYield(range, given(share(12), 'left'), cited);
    // 100 - 20 x 0.88
    expect(shown(found)).toBe('82.4 %');
    expect(
      shown(freshFor(figure('20 kg'), { fresh: given(found, 'm'), dry: given(share(12), 'left') }).value),
    ).toBe('100,000 g');
  });
});

describe('the moisture that a lot had', () => {
  it('800 g fresh and 200 g dry at 12 % had 78 %', () => {
    expect(write(value(moistureHad(figure('800 g'), figure('200 g'), given(share(12), 'left'))).value)).toBe(
      '78 %',
    );
  });

  it('a dry weight that is not below the fresh is refused', () => {
    expect(why(moistureHad(figure('200 g'), figure('200 g'), given(share(12), 'left')))).toMatch(
      /which of the two is wrong/,
    );
  });
});

describe('laws', () => {
  const percent = (min: number, max: number) => fc.integer({ min, max });

  it('fresh for what dries from a weight is that weight, at each end', () => {
    fc.assert(
      fc.property(
        percent(30, 95),
        percent(1, 20),
        fc.integer({ min: 1, max: 100_000 }),
        (wet, left, grams) => {
          const m = moistures(`${wet}`, `${wet}`, `${left}`);
          const done = dryFrom(figure(`${grams} g`), m).value.low as Quantity;
          const back = freshFor(given(done, 'dry'), m).value.high as Quantity;
          expect(back.value.minus(grams).abs().lt('1e-40')).toBe(true);
        },
      ),
    );
  });

  it('more moisture means more fresh herb and less dry', () => {
    fc.assert(
      fc.property(percent(30, 90), fc.integer({ min: 1, max: 9 }), (wet, more) => {
        const [a, b] = [
          moistures(`${wet}`, `${wet}`, '12'),
          moistures(`${wet + more}`, `${wet + more}`, '12'),
        ];
        const at = (r: Figure<Range>): Quantity['value'] => (r.value.low as Quantity).value;
        expect(at(freshFor(figure('100 g'), b)).gt(at(freshFor(figure('100 g'), a)))).toBe(true);
        expect(at(dryFrom(figure('100 g'), b)).lt(at(dryFrom(figure('100 g'), a)))).toBe(true);
      }),
    );
  });
});
