import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readDocument } from '../../src/folder/read.ts';
import type { LegalLimits } from '../../src/folder/schema/reference.ts';
import { exact } from '../../src/measure/exact.ts';
import { inUnit, type Quantity } from '../../src/measure/quantity.ts';
import { milligram } from '../../src/measure/units.ts';
import { found, tincture } from '../checking/under-law.ts';
import { must } from '../must.ts';

/**
 * The table of legal limits beside the law as it was gathered (`law/`): S.I. 2012/1916, Schedule 20, the prohibition orders
 * S.I. 2001/1841, 2002/3170 and 2008/548; Canada's C.R.C., c. 870, C.01.021 and two texts of Health Canada. Every figure
 * and Latin name of the one is looked for in the other, and nothing may stand in the table beside them.
 */

const path = (of: string): string => fileURLToPath(new URL(of, import.meta.url));
const gathered = (file: string) =>
  parse(readFileSync(path(`./law/${file}.yaml`), 'utf8'), { schema: 'failsafe' });
const table: LegalLimits = must(
  await readDocument(
    'legal-limits',
    path('../../monographs/reference/legal-limits.yaml'),
    'legal-limits.yaml',
  ),
).value;

type Limit = LegalLimits['limits'][number];
type Row = Readonly<Record<string, string>> & { readonly latin: readonly string[] };
const uk: Readonly<Record<'part_1' | 'part_2' | 'orders' | 'tincture_ceilings', readonly Row[]>> =
  gathered('united-kingdom');
const canada: Readonly<Record<'adults' | 'children', readonly Row[]>> = gathered('canada');

const ofLaw = (...laws: string[]): Limit[] => table.limits.filter((l) => laws.includes(l.law));
const mg = (q: Quantity | undefined): string => (q ? inUnit(q, milligram).value.toFixed() : 'null');
const plain = (n: string | undefined): string =>
  n === undefined || n === 'null' ? 'null' : exact(n).toFixed();
const percent = (l: Limit): string => l.external?.value.toFixed() ?? 'null';

/** The table's word for a part that the law prints. */
const PART: Readonly<Record<string, readonly string[] | undefined>> = {
  'not stated': undefined,
  'fruit or leaf': ['fruit', 'leaf'],
  seeds: ['seed'],
  berry: ['fruit'],
};
const partOf = ({ part = 'not stated' }: Row) => (part in PART ? PART[part] : [part]);

describe('Schedule 20 Part 1', () => {
  it.each(uk.part_1)('$common is barred, of the part that the law prints', (row) => {
    const limits = ofLaw('uk-part-1').filter((l) => l.latin?.join() === row.latin.join());
    expect(limits).toHaveLength(1);
    const [l] = limits as [Limit];
    expect(l.barred).toEqual(['internal', 'external']);
    expect(l.parts).toEqual(partOf(row));
    expect(l.except).toBe(row.condition === 'whole or unpowdered only' ? 'powder' : undefined);
    expect([mg(l.single), mg(l.daily), percent(l)]).toEqual(['null', 'null', 'null']);
  });

  it('holds 25 entries and nothing beside them', () => {
    expect(uk.part_1).toHaveLength(25);
    expect(ofLaw('uk-part-1')).toHaveLength(25);
  });
});

describe('Schedule 20 Part 2', () => {
  it.each(uk.part_2)('$common: $md mg at once, $mdd mg in a day, $percent %', (row) => {
    const l = table.limits.find((x) => x.id === row.id) as Limit;
    expect(l.law).toBe('uk-part-2');
    expect(l.latin).toEqual(row.latin);
    expect(l.parts).toEqual(partOf(row));
    expect([mg(l.single), mg(l.daily), percent(l)]).toEqual([
      plain(row.md),
      plain(row.mdd),
      plain(row.percent),
    ]);
    expect(l.barred).toEqual(row.md === 'null' ? ['internal'] : undefined);
  });

  it('holds 18 entries and nothing beside them', () => {
    expect(uk.part_2).toHaveLength(18);
    expect(ofLaw('uk-part-2')).toHaveLength(18);
  });

  it('every daily figure is three times the single one', () => {
    const dosed = ofLaw('uk-part-2').filter((l) => l.single !== undefined);
    expect(dosed).toHaveLength(13);
    for (const l of dosed)
      expect([l.id, mg(l.daily)]).toEqual([l.id, exact(mg(l.single)).times(3).toFixed()]);
  });
});

describe('the prohibition orders', () => {
  it.each(uk.orders)('$id', (row) => {
    const l = table.limits.find((x) => x.id === row.id) as Limit;
    const genera = row.latin.flatMap((n) => /^(\w+) \(any species\)$/.exec(n)?.[1] ?? []);
    const species = row.latin.filter((n) => !n.includes('('));
    expect(l.genera ?? []).toEqual(genera);
    expect(l.latin ?? []).toEqual(species);
    expect(l.barred).toEqual(row.external_use_exempt === 'yes' ? ['internal'] : ['internal', 'external']);
  });

  it('are three, and nothing stands beside them', () => {
    expect(ofLaw('uk-aristolochia', 'uk-kava', 'uk-senecio').map((l) => l.id)).toEqual(
      uk.orders.map((o) => o.id),
    );
  });
});

describe('Canada', () => {
  const standing = canada.adults.filter((r) => r.stands_as !== undefined);

  it.each(standing)('$item: $single mg at once, $daily mg in a day, $external %', (row) => {
    const l = table.limits.find((x) => x.id === row.stands_as) as Limit;
    // 0 means that none is allowed.
    const none = (side: 'internal' | 'external', printed: string | undefined): string =>
      l.barred?.includes(side) ? (printed === '0' ? '0' : 'barred without a printed 0') : 'open';
    const inside = none('internal', row.single);
    expect(inside === 'open' ? [mg(l.single), mg(l.daily)] : [inside, inside]).toEqual([
      plain(row.single),
      plain(row.daily),
    ]);
    const outside = none('external', row.external);
    expect(outside === 'open' ? percent(l) : outside).toBe(plain(row.external));
  });

  it('every entry of the table was gathered, and what was left out says why', () => {
    expect(
      ofLaw('ca-table', 'ca-ephedra', 'ca-kava')
        .map((l) => l.id)
        .sort(),
    ).toEqual(standing.map((r) => r.stands_as).sort());
    for (const r of canada.adults)
      expect((r.stands_as === undefined) !== (r.left_out === undefined), r.item).toBe(true);
  });

  it('children have the printed fractions', () => {
    const law = table.laws.find((l) => l.id === 'ca-table');
    const [sixth, quarter, half] = ['1/6', '1/4', '1/2'];
    expect(canada.children.map((r) => r.fraction)).toEqual(['null', sixth, quarter, half]);
    expect(law?.children?.map((c) => c.share?.toSignificantDigits(12).toFixed() ?? 'null')).toEqual(
      canada.children.map(({ fraction = 'null' }) => {
        const [over, under] = fraction.split('/');
        return under
          ? exact(over as string)
              .div(under)
              .toSignificantDigits(12)
              .toFixed()
          : 'null';
      }),
    );
    expect(law?.children?.map((c) => c.ages.under?.months)).toEqual([24, 60, 120, 180]);
  });
});

describe('every law', () => {
  it('says which text was read, and of what it bars what becomes of it', () => {
    for (const l of table.limits) {
      const law = table.laws.find((x) => x.id === l.law);
      expect(law?.as_read, l.id).toBeTruthy();
      if (l.barred) expect(law?.bars, l.id).toBeTruthy();
    }
  });

  it('every part that a limit names is one that the table has words for', () => {
    const known = table.parts.map((p) => p.part);
    for (const l of table.limits) expect(known).toEqual(expect.arrayContaining([...(l.parts ?? [])]));
    for (const p of table.parts) expect(known).toEqual(expect.arrayContaining([...(p.near ?? [])]));
  });
});

describe('a tincture of 1 part in n at its ceiling: mL = mg x n / 1000', () => {
  const id = (herb: string): string => herb.toLowerCase().replace(/ /g, '-');

  it.each(uk.tincture_ceilings)('$herb $ratio: $at_once mL at once, $a_day mL a day', async (row) => {
    const { herb = '', ratio = '', at_once = '', a_day = '', a_week = '' } = row;
    const of = async (mL: string, times: string) =>
      (await found(tincture(id(herb), ratio, `${mL} mL`, times))).map(
        (f) => `${f.level} ${f.id.split('-').at(-1)}`,
      );
    const single = exact(at_once);
    expect(exact(a_day).toFixed()).toBe(single.times(3).toFixed());
    expect(exact(a_week).toFixed()).toBe(single.times(21).toFixed());
    expect(await of(single.toFixed(), '3')).toEqual([]);
    expect(await of(single.times('1.01').toFixed(), '1')).toEqual(['withhold single']);
    expect(await of(single.times('0.76').toFixed(), '4')).toEqual(['withhold daily']);
    // The volume of a week, taken once a day.
    expect(await of(a_day, '1')).toEqual(['withhold single']);
  });
});
