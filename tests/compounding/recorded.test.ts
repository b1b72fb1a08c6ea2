import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadBatch, madeUp } from '../../src/cli/load.ts';
import { herbDoses } from '../../src/dosing/equivalents.ts';
import { idsOf, openFolder } from '../../src/folder/folder.ts';
import { show } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { must } from '../must.ts';

const folder = must(await openFolder(fileURLToPath(new URL('../../', import.meta.url)), undefined));
const readAs = (formula: Awaited<ReturnType<typeof made>>['formula']) => ({
  value: formula,
  file: 'record',
  hash: '',
});
const made = async (id: string) => must(await loadBatch(folder, id, {}));

describe('a batch made up again from its record', () => {
  it.each(idsOf(folder, 'formula'))(
    '%s is what it was: the same lines, strength, yield and doses',
    async (id) => {
      const { formula, batch } = await made(id);
      const lines = new Map(batch.lines.map((l) => [l.key, l.weigh.value]));
      const again = must(await madeUp(folder, readAs(formula), {}, { by: 'recorded', lines })).batch;
      expect(show(again.total, 'exact')).toBe(show(batch.total, 'exact'));
      expect(again.lines.map((l) => show(l.weigh, 'exact'))).toEqual(
        batch.lines.map((l) => show(l.weigh, 'exact')),
      );
      const strength = (b: typeof batch) =>
        b.making.kind === 'product' && b.making.strength ? show(b.making.strength) : null;
      expect(strength(again)).toBe(strength(batch));
      const doses = (b: typeof batch) =>
        herbDoses(b).map((d) => [d.herb, d.amounts && show(d.amounts.daily)]);
      expect(doses(again)).toEqual(doses(batch));
    },
  );

  it('is not rounded anew: what was poured of 140 mL is not what would be poured of 70 mL', async () => {
    const { formula } = await made('hushed-hours');
    const lines = new Map([
      ['valerian-root', quantity(70, 'mL')],
      ['lemon-balm-leaf', quantity(53, 'mL')],
      ['syrup', quantity(17, 'mL')],
    ]);
    const { making } = must(await madeUp(folder, readAs(formula), {}, { by: 'recorded', lines })).batch;
    // (70 x 70 + 53 x 45) / 140 = 52.04 % v/v.
    expect(making.kind === 'product' && making.strength && show(making.strength)).toBe('52.04 % v/v');
  });

  it('that lacks a line of its formula is refused', async () => {
    const { formula } = await made('hushed-hours');
    const r = await madeUp(
      folder,
      readAs(formula),
      {},
      { by: 'recorded', lines: new Map([['syrup', quantity(17, 'mL')]]) },
    );
    expect(r.ok ? '' : r.problems[0]?.message).toContain('does not say how much of valerian-root');
  });
});
