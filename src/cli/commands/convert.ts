import { findRoot, openFolder } from '../../folder/folder.ts';
import { type Figure, given, worked } from '../../measure/figure.ts';
import {
  dropsToVolume,
  LIQUIDS,
  liquidNamed,
  massToVolume,
  volumeToDrops,
  volumeToMass,
} from '../../measure/liquid.ts';
import { nearest } from '../../measure/nearest.ts';
import { type Measures, NO_MEASURES, parseQuantity, parseUnit } from '../../measure/parse.ts';
import { comparable, convert as convertWithin, inUnit, type Quantity } from '../../measure/quantity.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import { gram, millilitre, type Unit } from '../../measure/units.ts';
import { numberJson, write } from '../../measure/write.ts';
import { cite } from '../../reports/cite.ts';
import type { Sheet } from '../../reports/sheet.ts';
import { exactly, words } from '../../reports/sheet.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

interface ConvertOptions extends CommonOptions {
  readonly density?: string;
  readonly liquid?: string;
  readonly dropper?: string;
}

/** What a measure is in another unit; a practice's own settings count where there is a folder. */
export async function convert(
  [from = '', to = '']: readonly string[],
  options: ConvertOptions,
): Promise<Outcome> {
  const measures = await measuresHere(options);
  if (!measures.ok) return measures.outcome;
  const quantity = parseQuantity(from, measures.value);
  if (!quantity.ok) return misused(quantity.why);
  const unit = parseUnit(to, measures.value);
  if (!unit.ok) return misused(unit.why);
  const extra = readExtras(options, measures.value);
  if (!extra.ok) return misused(extra.why);
  const start = given(quantity.value, 'given');
  const result = converted(start, unit.value, extra.value);
  if (!result.ok) return misused(result.why);
  return answered([
    {
      name: 'convert',
      sheet: sheetFor(start, result.value),
      result: { value: numberJson(result.value.value.value), unit: unit.value.code },
    },
  ]);
}

async function measuresHere(
  options: CommonOptions,
): Promise<{ ok: true; value: Measures } | { ok: false; outcome: Outcome }> {
  if (options.folder === undefined && findRoot(process.cwd()) === null)
    return { ok: true, value: NO_MEASURES };
  const folder = await openFolder(process.cwd(), options.folder);
  return folder.ok ? { ok: true, value: folder.value.measures } : { ok: false, outcome: failed(folder.why) };
}

interface Extras {
  readonly density: Figure<Quantity> | null;
  readonly dropper: Figure<Quantity> | null;
}

function readExtras(options: ConvertOptions, measures: Measures): Result<Extras> {
  const density = densityFrom(options, measures);
  if (!density.ok) return density;
  if (options.dropper === undefined) return ok({ density: density.value, dropper: null });
  const drops = parseQuantity(options.dropper, measures, ['drops per volume']);
  return drops.ok
    ? ok({ density: density.value, dropper: given(drops.value, 'drops of this liquid from this dropper') })
    : bad(`--dropper ${drops.why}`);
}

function densityFrom(options: ConvertOptions, measures: Measures): Result<Figure<Quantity> | null> {
  if (options.density !== undefined) {
    const q = parseQuantity(options.density, measures, ['mass per volume']);
    return q.ok ? ok(given(q.value, 'density given')) : bad(`--density ${q.why}`);
  }
  if (options.liquid === undefined) return ok(null);
  const liquid = liquidNamed(options.liquid);
  if (liquid)
    return ok(
      given(
        liquid.density,
        `density of ${liquid.name}${liquid.celsius === null ? '' : ` at ${liquid.celsius} C`}`,
        liquid.source,
      ),
    );
  const names = LIQUIDS.map((l) => l.name);
  const near = nearest(options.liquid, names);
  return bad(
    `the density of "${options.liquid}" is not known here: ${near.length > 0 ? `did you mean ${near.join(' or ')}?` : `known are ${names.join(', ')}; or give --density`}`,
  );
}

/** Within a dimension directly; between mass and volume by the density; from and to drops by the dropper's count. */
function converted(from: Figure<Quantity>, to: Unit, { density, dropper }: Extras): Result<Figure<Quantity>> {
  const source = from.value.unit;
  const arrive = (q: Quantity, by: string, inputs: readonly Figure[]): Figure<Quantity> =>
    worked(inUnit(q, to), 'converted', by, inputs);
  if (comparable(source, to)) {
    const r = convertWithin(from.value, to);
    return r.ok
      ? ok(source === to ? from : worked(r.value, 'converted', `{} x ${ratioInWords(source, to)}`, [from]))
      : r;
  }
  const path = `${source.dimension} ${to.dimension}`;
  if (path === 'mass volume' || path === 'volume mass') {
    if (density === null)
      return bad(
        `${source.symbol} to ${to.symbol} needs the density of the liquid: add --density "0.92 g/mL" or --liquid water`,
      );
    const r =
      path === 'mass volume'
        ? massToVolume(from.value, density.value)
        : volumeToMass(from.value, density.value);
    return r.ok ? ok(arrive(r.value, path === 'mass volume' ? '{} / {}' : '{} x {}', [from, density])) : r;
  }
  if (path === 'drops volume' || path === 'volume drops') {
    if (dropper === null)
      return bad(
        'a drop is no fixed measure: count what your dropper gives of this liquid and add it, such as --dropper "35 drops/mL"',
      );
    const r =
      path === 'drops volume'
        ? dropsToVolume(from.value, dropper.value)
        : volumeToDrops(from.value, dropper.value);
    return r.ok ? ok(arrive(r.value, path === 'drops volume' ? '{} / {}' : '{} x {}', [from, dropper])) : r;
  }
  return bad(
    `${write(from.value)} measures ${source.dimension} and ${to.symbol} measures ${to.dimension}: neither becomes the other`,
  );
}

function ratioInWords(from: Unit, to: Unit): string {
  const base = from.dimension === 'mass' ? gram : from.dimension === 'volume' ? millilitre : null;
  const size = (u: Unit): string =>
    u.size[1].eq(1) ? u.size[0].toFixed() : `${u.size[0].toFixed()}/${u.size[1].toFixed()}`;
  if (base === null || to === base) return `${size(from)} ${base?.symbol ?? ''} per ${from.symbol}`;
  return from === base
    ? `1 ${to.symbol} per ${size(to)} ${base.symbol}`
    : `${size(from)} ${base.symbol} per ${from.symbol} / ${size(to)} ${base.symbol} per ${to.symbol}`;
}

function sheetFor(from: Figure<Quantity>, to: Figure<Quantity>): Sheet {
  const unit = from.value.unit;
  const written = write(cut(from).value, 'exact');
  const source = [from, to].flatMap((f) => f.step.inputs).find((f) => f.step.source)?.step.source;
  return {
    title: `${written} in ${to.value.unit.symbol}`,
    blocks: [
      { kind: 'facts', facts: [{ label: written, value: [exactly(cut(to))] }] },
      {
        kind: 'lines',
        lines: [
          ...(unit.from === 'SI' && to.value.unit.from === 'SI'
            ? []
            : [
                words(
                  `Defined by: ${[...new Set([unit.from, to.value.unit.from])].filter((x) => x !== 'SI').join('; ')}`,
                ),
              ]),
          ...(unit.nominal || to.value.unit.nominal
            ? [
                words(
                  'This measure is a custom: real ones vary. Measure your own and set it in practice.yaml.',
                ),
              ]
            : []),
          ...(source ? [words(`Density: ${cite(source)}`)] : []),
        ],
      },
    ],
  };
}

/** All the digits where a figure ends within 12, else 12 of them. */
function cut(f: Figure<Quantity>): Figure<Quantity> {
  const { value, unit } = f.value;
  return value.precision() <= 12
    ? f
    : { value: { value: value.toSignificantDigits(12), unit }, step: f.step };
}
