import { type Folder, readTable } from '../folder/folder.ts';
import { FORMS, type Form, isStockForm } from '../folder/forms.ts';
import { findHerb } from '../folder/herb-names.ts';
import { type CalendarDate, compareDates, parseDate, writeDate } from '../measure/calendar.ts';
import { parseMoney } from '../measure/money.ts';
import { nearest } from '../measure/nearest.ts';
import { parseQuantity, parseSolventRatio, parseStrength } from '../measure/parse.ts';
import { parseMoisture } from '../measure/parse-moisture.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram, millilitre } from '../measure/units.ts';
import { keptByPractice } from '../recording/discard-after.ts';
import type { Draft, Snapshot } from '../recording/journal.ts';
import { moistureText } from '../recording/needs.ts';
import { dateText, priceText, quantityText } from '../recording/quantity-text.ts';
import { failedLoading, type Loading, loadMonographs } from './load.ts';
import { lotOfBatch } from './lot-made.ts';
import type { LotOptions } from './options.ts';
import { usage } from './outcome.ts';
import { flagReader, initialsOf, someWords } from './read-flags.ts';

/** What is booked in, as a record: bought, gathered, or a batch that was made here. */
export async function lotDraft(
  folder: Folder,
  now: Snapshot,
  name: string,
  options: LotOptions,
  on: CalendarDate,
): Promise<Loading<Draft<'lot'>>> {
  const faults: string[] = [];
  const read = flagReader(faults);
  const by = initialsOf(options.initials);
  if (!by.ok) faults.push(by.why);
  const origins = (['bought', 'gathered', 'made'] as const).filter((k) => options[k] !== undefined);
  if (origins.length !== 1)
    faults.push(
      origins.length === 0
        ? 'where is it from? add --bought SUPPLIER, --gathered PLACE or --made BATCH'
        : `${origins.map((o) => `--${o}`).join(' and ')} are two origins: keep one`,
    );
  const made = options.made === undefined ? null : await lotOfBatch(folder, now, options.made, options);
  if (made && !made.ok) return made;
  const what = made ? ok(made.value.what) : await whatIs(folder, name);
  if (!what.ok) return failedLoading([...faults, what.why].map(usage));
  const form = read('--form', options.form, parseForm);
  const measured = await amountOf(options, folder, made?.value.amount ?? null, read);
  if (measured === undefined && options.amount === undefined)
    faults.push('how much? add --amount, such as --amount "500 g"');
  const gathered = gatheredOf(options, read, faults);
  const bought = read('--bought', options.bought, someWords);
  const expires = read('--expires', options.expires, parseDate);
  if (expires && compareDates(expires, on) < 0)
    faults.push(`--expires ${writeDate(expires)} is before the day it is booked in, ${writeDate(on)}`);
  const price = read('--price', options.price, parseMoney);
  const own = strengthOf(options, read);
  if (what.value.herb) {
    const its = made?.value.form ?? form ?? 'dried';
    faults.push(...lacking(its, { ...made?.value.own, ...own }, options));
  }
  if (what.value.spirit && own.spirit === undefined)
    faults.push('how strong is the spirit? add --spirit, such as --spirit "96.3 % v/v"');
  if (faults.length > 0 || measured === undefined || !by.ok) return failedLoading(faults.map(usage));
  const its: Form | undefined = what.value.herb ? (made?.value.form ?? form ?? 'dried') : undefined;
  const until = expires ?? made?.value.expires ?? (await keptUntil(folder, what.value.herb, its, on));
  return {
    ok: true,
    value: {
      kind: 'lot',
      on: writeDate(on),
      by: by.value,
      ...what.value.keys,
      form: its,
      ...made?.value.own,
      ...own,
      amount: quantityText(measured),
      expires: dateText(until),
      price: price && priceText(price),
      ...(bought ? { bought: { from: bought, lot: options.supplierLot?.trim() || undefined } } : {}),
      ...(gathered ? { gathered } : {}),
      ...(made ? { made: { batch: made.value.batch } } : {}),
      note: options.note?.trim() || undefined,
    },
  };
}

interface What {
  readonly herb: string | null;
  readonly spirit: boolean;
  readonly keys: Readonly<Record<string, string>>;
}

export const ofHerb = (herb: string): What => ({ herb, spirit: false, keys: { herb } });

/** A herb by any of its names, a vehicle by its id, or spirit. */
async function whatIs(folder: Folder, name: string): Promise<Result<What>> {
  if (name === '') return bad('what is booked in? write a herb, a vehicle such as honey, or spirit');
  if (name === 'spirit') return ok({ herb: null, spirit: true, keys: {} });
  const found = await findHerb(folder, name);
  if (found.kind === 'found') return ok(ofHerb(found.id));
  if (found.kind === 'several') return bad(`"${name}" could be ${found.ids.join(' or ')}: write which`);
  const table = await readTable(folder, 'vehicles');
  const vehicles = table.ok ? table.value.value.vehicles.map((v) => v.id) : [];
  if (vehicles.includes(name)) return ok({ herb: null, spirit: false, keys: { vehicle: name } });
  const near = [...found.near, ...nearest(name, vehicles)];
  return bad(
    `there is no herb or vehicle "${name}"${near.length > 0 ? `: did you mean ${near.join(' or ')}?` : ': scruple list shows what there is'}`,
  );
}

function parseForm(text: string): Result<Form> {
  const form = FORMS.find((f) => f === text.trim());
  if (form) return ok(form);
  const near = nearest(text, FORMS);
  return bad(
    `"${text}": ${near.length > 0 ? `did you mean ${near.join(' or ')}?` : `write one of ${FORMS.join(', ')}`}`,
  );
}

type Read = ReturnType<typeof flagReader>;

/** In g or mL, whatever it was written in, so that what is left of it is told in what is weighed and poured. */
async function amountOf(
  options: LotOptions,
  folder: Folder,
  ofBatch: Quantity | null,
  read: Read,
): Promise<Quantity | undefined> {
  const q = read('--amount', options.amount, (t) => parseQuantity(t, folder.measures, ['mass', 'volume']));
  const written = q ?? (options.amount === undefined ? ofBatch : undefined);
  if (!written) return undefined;
  const above = read('--amount', written, (x) => (x.value.gt(0) ? ok(x) : bad('must be above 0')));
  return above && inUnit(above, above.unit.dimension === 'mass' ? gram : millilitre);
}

function gatheredOf(
  options: LotOptions,
  read: Read,
  faults: string[],
): Record<string, string | undefined> | null {
  const { gathered, leave, identifiedBy } = options;
  if (gathered === undefined) {
    for (const [flag, given] of [
      ['--leave', leave],
      ['--identified-by', identifiedBy],
      ['--fresh', options.fresh],
    ] as const)
      if (given !== undefined) faults.push(`${flag} belongs to what was gathered: add --gathered PLACE`);
    return null;
  }
  if (leave === undefined)
    faults.push('whose leave was there to gather? add --leave, such as --leave "own garden"');
  if (identifiedBy === undefined) faults.push('who made sure what plant it is? add --identified-by');
  const fresh = read('--fresh', options.fresh, (t) => parseQuantity(t, undefined, ['mass']));
  return {
    place: read('--gathered', gathered, someWords),
    leave: read('--leave', leave, someWords),
    identified_by: read('--identified-by', identifiedBy, someWords),
    fresh: fresh && quantityText(fresh),
  };
}

export type OwnStrength = Readonly<
  Record<'ratio' | 'spirit' | 'glycerol' | 'moisture' | 'of_fresh' | 'density', string | undefined>
>;

function strengthOf(options: LotOptions, read: Read): Partial<OwnStrength> {
  const strong = (t: string) => parseStrength(t, ['share v/v', 'share m/m']);
  const ratio = read('--ratio', options.ratio, parseSolventRatio);
  const spirit = read('--spirit', options.spirit, strong);
  const glycerol = read('--glycerol', options.glycerol, strong);
  const moisture = read('--moisture', options.moisture, parseMoisture);
  const density = read('--density', options.density, (t) => parseQuantity(t, undefined, ['mass per volume']));
  const all = {
    ratio: ratio?.text,
    spirit: spirit && quantityText(spirit),
    glycerol: glycerol && quantityText(glycerol),
    moisture: moisture && moistureText(moisture),
    of_fresh: options.ofFresh ? 'yes' : undefined,
    density: density && quantityText(density),
  };
  return Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined));
}

/** What was drawn out is nothing without its strength; the herb itself has none. */
function lacking(form: Form, own: Partial<OwnStrength>, typed: LotOptions): string[] {
  if (form === 'essential-oil')
    return own.density || typed.density !== undefined
      ? []
      : ['how heavy is 1 mL of the oil? add --density "0.91 g/mL"'];
  if (!isStockForm(form)) {
    const odd = (['ratio', 'spirit', 'glycerol'] as const).filter((k) => own[k] !== undefined);
    return odd.map((k) => `--${k} belongs to what was drawn out: add --form, such as --form tincture`);
  }
  return [
    ...(own.ratio || typed.ratio !== undefined
      ? []
      : [`how strong is the ${form}? add --ratio, such as --ratio "1:5 w/v"`]),
    ...((form === 'tincture' || form === 'liquid-extract') && !own.spirit && typed.spirit === undefined
      ? [`what spirit is the ${form} made with? add --spirit, such as --spirit "45 % v/v"`]
      : []),
    ...(own.of_fresh && !own.moisture
      ? ['how much water did the fresh herb hold? add --moisture "78 %"']
      : []),
  ];
}

/** As long as the practice keeps such things, else as the monograph says of the dried herb; null where neither says. */
async function keptUntil(
  folder: Folder,
  herb: string | null,
  form: Form | undefined,
  on: CalendarDate,
): Promise<CalendarDate | null> {
  if (form === undefined) return null;
  const own = keptByPractice(form, folder.settings.keeps, on)[0]?.date;
  if (own || herb === null || form !== 'dried') return own ?? null;
  const read = await loadMonographs(folder, [herb]);
  const time = read.ok ? read.value.get(herb)?.monograph?.keep?.for : undefined;
  const least = time?.low ?? time?.high;
  return least ? (keptByPractice(form, new Map([[form, least]]), on)[0]?.date ?? null) : null;
}
