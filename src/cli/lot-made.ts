import type { Folder } from '../folder/folder.ts';
import type { Form } from '../folder/forms.ts';
import { herbsIn, keyOf } from '../folder/ingredients.ts';
import { type Read, readText } from '../folder/read.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { KeptAs } from '../folder/schema/record.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { isRange, show } from '../measure/figure.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Snapshot } from '../recording/journal.ts';
import { quantityText } from '../recording/quantity-text.ts';
import { stockAmong } from '../recording/relevant.ts';
import { failedLoading, type Loading, type MadeUp, madeUp } from './load.ts';
import { type OwnStrength, ofHerb } from './lot-booked.ts';
import type { LotOptions } from './options.ts';
import { usage } from './outcome.ts';
import { numberTyped, recordOf } from './recorded.ts';

/** A batch that goes on the shelf: what its kind of preparation is called there. */
const FORM_OF: Readonly<Record<string, Form>> = {
  tincture: 'tincture',
  'fresh-tincture': 'tincture',
  percolation: 'tincture',
  glycerite: 'glycerite',
  'infused-oil': 'infused-oil',
  honey: 'honey',
  oxymel: 'oxymel',
  syrup: 'syrup',
  powder: 'powder',
};

export interface LotOfBatch {
  readonly batch: string;
  readonly what: ReturnType<typeof ofHerb>;
  readonly form: Form;
  readonly own: Partial<OwnStrength>;
  readonly amount: Quantity;
  readonly expires: CalendarDate;
}

/** A batch of one herb as a lot with its own ratio and strength. Several herbs are a remedy, and no lot of any of them. */
export async function lotOfBatch(
  folder: Folder,
  now: Snapshot,
  typed: string,
  options: LotOptions,
): Promise<Loading<LotOfBatch>> {
  const number = numberTyped(typed, '--made');
  if (!number.ok) return number;
  const record = await recordOf(now, number.value, ['batch']);
  if (!record.ok) return record;
  const stock = await stockAmong(now, [number.value]);
  if (!stock.ok) return stock;
  const held = stock.value.get(number.value);
  const refused = (why: string) => failedLoading([usage(`--made ${number.value} ${why}`)]);
  if (!held) return refused('was cancelled: it is no batch any more');
  if (!held.left.value.gt(0))
    return refused('is used up, or is a lot already: scruple trace shows where it went');
  const made = await asRecorded(folder, record.value);
  if (!made.ok) return made;
  const { formula, batch } = made.value;
  const [herb, ...others] = herbsIn(formula);
  const form = FORM_OF[formula.preparation.kind];
  if (herb === undefined || others.length > 0)
    return refused('is made of several herbs: it is handed over as it is, and is a lot of none of them');
  if (form === undefined)
    return refused(
      `is a ${formula.preparation.kind}, which is handed over as it is and never stands on the shelf`,
    );
  const p = batch.making.kind === 'product' ? batch.making : null;
  const strength = p?.strength ?? null;
  if (strength && isRange(strength.value) && options.spirit === undefined)
    return refused(`ended at ${show(strength)}: say at which strength it is reckoned, with --spirit`);
  const spirit = strength && !isRange(strength.value) ? quantityText(strength.value) : undefined;
  const ratio = p?.solvent?.ratio.text;
  const glycerol = 'glycerol' in formula.preparation ? formula.preparation.glycerol : undefined;
  return {
    ok: true,
    value: {
      batch: number.value,
      what: ofHerb(herb),
      form,
      own: {
        ...(ratio ? { ratio } : {}),
        ...(spirit ? { spirit } : {}),
        ...(glycerol ? { glycerol: quantityText(glycerol) } : {}),
      },
      amount: held.left,
      expires: record.value.label.discard_after,
    },
  };
}

/** What a batch is, made up of the formula as it was made then and of the lines as they were weighed or poured. */
export async function asRecorded(folder: Folder, record: KeptAs<'batch'>): Promise<Loading<MadeUp>> {
  const written = await formulaOf(folder, record);
  if (!written.ok) return written;
  const keys = new Set(written.value.value.ingredients.map(keyOf));
  const lines = new Map(record.lines.filter((l) => keys.has(l.of)).map((l) => [l.of, l.amount]));
  return madeUp(folder, written.value, {}, { by: 'recorded', lines });
}

/** The formula in a record, as it was made. */
export async function formulaOf(
  folder: Folder,
  { text, record, formula }: Pick<KeptAs<'batch' | 'dispensing'>, 'text' | 'record' | 'formula'>,
): Promise<Loading<Read<Formula>>> {
  const read = await readText(
    'formula',
    text,
    `the formula in record ${record}`,
    formula,
    '',
    folder.measures,
  );
  return read.ok ? { ok: true, value: read.value } : failedLoading(read.why);
}
