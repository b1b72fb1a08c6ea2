import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDate } from '../../src/measure/calendar.ts';
import { parseSolventRatio } from '../../src/measure/parse.ts';
import { type Quantity, quantity } from '../../src/measure/quantity.ts';
import { type Draw, drawLots, type Lot, type Need } from '../../src/recording/draw.ts';
import { recordNumber } from '../../src/recording/number.ts';
import type { Held, Stock } from '../../src/recording/stock.ts';
import { must } from '../must.ts';

const day = (text: string) => must(parseDate(text));
const ON = day('2026-05-02');

interface Has {
  readonly herb?: string;
  readonly vehicle?: string;
  readonly form?: Lot['form'];
  readonly left: string;
  readonly unit?: string;
  readonly expires?: string;
  readonly quarantined?: boolean;
  readonly spirit?: string;
  readonly ratio?: string;
  readonly on?: string;
}

function shelf(...lots: readonly Has[]): Stock {
  return new Map(
    lots.map((l, i): [string, Held] => {
      const number = recordNumber(i + 1);
      const left = quantity(l.left, l.unit ?? 'g');
      const from = {
        kind: 'lot',
        record: number,
        on: day(l.on ?? '2026-01-01'),
        by: 'KR',
        ...(l.vehicle ? { vehicle: l.vehicle } : l.herb === '' ? {} : { herb: l.herb ?? 'thyme-herb' }),
        ...(l.form ? { form: l.form } : {}),
        ...(l.spirit ? { spirit: quantity(l.spirit, '%{v/v}') } : {}),
        ...(l.ratio ? { ratio: must(parseSolventRatio(l.ratio)) } : {}),
        amount: left,
        ...(l.expires ? { expires: day(l.expires) } : {}),
      } as Lot;
      return [number, { from, left, quarantined: l.quarantined ?? false }];
    }),
  );
}

const need = (amount: string, more: Partial<Need> = {}): Need => ({
  key: 'thyme-herb',
  as: 'herb',
  form: 'dried',
  amounts: [quantity(amount, 'g')],
  ...more,
});

const drawn = (stock: Stock, ...needs: Need[]): string[][] =>
  must(drawLots(needs, stock, ON, 'lots')).map((l) =>
    l.draws.map((d: Draw) => `${Number(d.lot)}: ${d.amount.value.toFixed()}`),
  );

const refused = (stock: Stock, ...needs: Need[]): readonly string[] => {
  const r = drawLots(needs, stock, ON, 'lots');
  return r.ok ? [] : r.why;
};

describe('drawing lots', () => {
  it('takes what expires first, and what has no date last', () => {
    const stock = shelf(
      { left: '50' },
      { left: '50', expires: '2027-06-01' },
      { left: '50', expires: '2026-12-01' },
    );
    expect(drawn(stock, need('120'))).toEqual([['3: 50', '2: 50', '1: 20']]);
  });

  it('takes the older of two that expire on one day', () => {
    const stock = shelf({ left: '50', expires: '2026-12-01' }, { left: '50', expires: '2026-12-01' });
    expect(drawn(stock, need('10'))).toEqual([['1: 10']]);
  });

  it('passes over what has expired, is in quarantine, or was booked in later', () => {
    const stock = shelf(
      { left: '50', expires: '2026-05-01' },
      { left: '50', expires: '2026-06-01', quarantined: true },
      { left: '50', expires: '2026-06-02', on: '2026-05-03' },
      { left: '50', expires: '2026-05-02' },
    );
    expect(drawn(stock, need('10'))).toEqual([['4: 10']]);
  });

  it('refuses what is not there, and says what is, and why the rest may not be used', () => {
    const stock = shelf(
      { left: '8' },
      { left: '50', expires: '2026-05-01' },
      { left: '90', quarantined: true },
    );
    expect(refused(stock, need('10'))).toEqual([
      'thyme-herb: 10 g wanted, there is 8 g (lot 000001); lot 000002 expired on 2026-05-01; lot 000003 is in quarantine',
    ]);
    expect(refused(shelf(), need('10'))).toEqual(['thyme-herb: 10 g wanted, and no lot of it was booked in']);
  });

  it('tells of every line that lacks something', () => {
    expect(refused(shelf(), need('10'), need('3', { key: 'nettle-leaf' }))).toHaveLength(2);
  });

  it('never pours lots of two strengths together, and takes the first to expire that is enough with its like', () => {
    const tincture = { form: 'tincture', unit: 'mL', ratio: '1:5 w/v' } as const;
    const want = need('0', { form: 'tincture', amounts: [quantity(60, 'mL')] });
    const stock = shelf(
      { ...tincture, spirit: '45', left: '40', expires: '2026-08-01' },
      { ...tincture, spirit: '60', left: '40', expires: '2026-09-01' },
      { ...tincture, spirit: '60', left: '40', expires: '2026-10-01' },
    );
    expect(drawn(stock, want)).toEqual([['2: 40', '3: 20']]);
    const [why] = refused(stock, need('0', { form: 'tincture', amounts: [quantity(90, 'mL')] }));
    expect(why).toBe(
      'thyme-herb (tincture): 90 mL wanted, there is 40 mL (lot 000001) and, of another strength, 80 mL (lots 000002, 000003)',
    );
  });

  it('takes powder of what was dried whole, and never whole herb of powder', () => {
    expect(drawn(shelf({ left: '50' }), need('10', { form: 'powder' }))).toEqual([['1: 10']]);
    expect(refused(shelf({ left: '50', form: 'powder' }), need('10'))).toHaveLength(1);
  });

  it('leaves a vehicle without a lot where none was ever booked in, and refuses one that ran out', () => {
    const honey = need('10', { key: 'honey', as: 'vehicle' });
    expect(drawn(shelf(), honey)).toEqual([[]]);
    expect(refused(shelf({ vehicle: 'honey', left: '5' }), honey)).toHaveLength(1);
  });

  it('takes spirit to make with only of the strength that is wanted', () => {
    const spirit = need('0', {
      key: 'spirit',
      as: 'spirit',
      strength: quantity(96, '%{v/v}'),
      amounts: [quantity(100, 'mL')],
    });
    const strong = { herb: '', unit: 'mL', spirit: '96', left: '500' };
    expect(drawn(shelf(strong), spirit)).toEqual([['1: 100']]);
    expect(drawn(shelf({ ...strong, spirit: '70' }), spirit)).toEqual([[]]);
  });

  it('takes by weight what was booked in by weight, where both are known', () => {
    const oil = need('0', {
      key: 'honey',
      as: 'vehicle',
      amounts: [quantity(100, 'mL'), quantity(142, 'g')],
    });
    expect(drawn(shelf({ vehicle: 'honey', left: '500' }), oil)).toEqual([['1: 142']]);
  });

  it('draws exactly what is wanted, and of no lot more than it holds (law)', () => {
    const lots = fc.array(
      fc.record({
        left: fc.integer({ min: 1, max: 5000 }),
        month: fc.option(fc.integer({ min: 6, max: 12 })),
        quarantined: fc.boolean(),
      }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(lots, fc.integer({ min: 1, max: 20_000 }), (has, tenths) => {
        const stock = shelf(
          ...has.map(({ left, month, quarantined }) => ({
            left: quantity(left, 'g').value.div(10).toFixed(),
            quarantined,
            ...(month ? { expires: `2026-${String(month).padStart(2, '0')}-15` } : {}),
          })),
        );
        const wanted = quantity(quantity(tenths, 'g').value.div(10), 'g');
        const there = has.filter((h) => !h.quarantined).reduce((n, h) => n + h.left, 0);
        const r = drawLots([need(wanted.value.toFixed())], stock, ON, 'lots');
        expect(r.ok).toBe(there >= tenths);
        if (!r.ok) return;
        const draws = r.value[0]?.draws ?? [];
        const sum = draws.reduce((q, d) => q.plus(d.amount.value), quantity(0, 'g').value);
        expect(sum.eq(wanted.value)).toBe(true);
        for (const d of draws) {
          const held = stock.get(d.lot) as Held & { left: Quantity };
          expect(held.quarantined).toBe(false);
          expect(d.amount.value.gt(0) && d.amount.value.lte(held.left.value)).toBe(true);
        }
        expect(new Set(draws.map((d) => d.lot)).size).toBe(draws.length);
      }),
    );
  });
});
