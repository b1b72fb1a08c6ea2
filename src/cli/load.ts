import type { BatchAsked } from '../compounding/batch-size.ts';
import { type Batch, type Bench, compound } from '../compounding/compound.ts';
import type { HeldBack } from '../compounding/pot.ts';
import { emptyShelf, type Shelf, shelfOf } from '../compounding/shelf.ts';
import { citeIn } from '../folder/cite-in.ts';
import { type Folder, hasId, idsOf, openFolder, readById, readTable } from '../folder/folder.ts';
import { herbsIn } from '../folder/ingredients.ts';
import type { Problem } from '../folder/problem.ts';
import type { Read } from '../folder/read.ts';
import type { Formula, Kind } from '../folder/schema/formula.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { Water } from '../folder/schema/reference.ts';
import { nearest } from '../measure/nearest.ts';
import { quantity } from '../measure/quantity.ts';
import { ok } from '../measure/result.ts';
import { batchAsked } from './batch-asked.ts';
import { loadLimitedByLaw } from './load-law.ts';
import { remembered } from './once.ts';
import type { BatchOptions, CommonOptions } from './options.ts';
import { usage } from './outcome.ts';

/** Reading what a command needs and nothing else: the folder, a formula, the monographs it names. */

export type Loading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const failedLoading = (
  problems: readonly Problem[],
): { readonly ok: false; readonly problems: readonly Problem[] } => ({ ok: false, problems });

export async function loadFolder(options: CommonOptions): Promise<Loading<Folder>> {
  const folder = await openFolder(process.cwd(), options.folder);
  return folder.ok ? { ok: true, value: folder.value } : failedLoading(folder.why);
}

export async function loadFormula(folder: Folder, id: string): Promise<Loading<Read<Formula>>> {
  if (!hasId(folder, 'formula', id)) {
    const ids = idsOf(folder, 'formula');
    const near = nearest(id, ids);
    const hint =
      near.length > 0
        ? `did you mean ${near.join(' or ')}?`
        : ids.length > 0
          ? `there are ${ids.slice(0, 12).join(', ')}${ids.length > 12 ? ' and more: scruple list formulas' : ''}`
          : 'the folder has no formulas yet';
    return failedLoading([
      { code: 'not-found', file: 'formulas', message: `there is no formula "${id}": ${hint}` },
    ]);
  }
  const read = await readById(folder, 'formula', id);
  return read.ok ? { ok: true, value: read.value } : failedLoading(read.why);
}

/** A herb's monograph, or the names nearest to it where there is none. */
export interface HerbFile {
  readonly monograph: Monograph | null;
  readonly near: readonly string[];
  /** Of the file's bytes; null where there is no file. */
  readonly hash: string | null;
}

async function loadHerbFile(folder: Folder, id: string): Promise<Loading<HerbFile>> {
  if (!hasId(folder, 'monograph', id)) {
    const near = nearest(id, idsOf(folder, 'monograph'));
    return { ok: true, value: { monograph: null, near, hash: null } };
  }
  const read = await readById(folder, 'monograph', id);
  if (!read.ok) return failedLoading(read.why);
  return { ok: true, value: { monograph: read.value.value, near: [], hash: read.value.hash } };
}

export async function loadMonographs(
  folder: Folder,
  ids: Iterable<string>,
): Promise<Loading<ReadonlyMap<string, HerbFile>>> {
  const found = new Map<string, HerbFile>();
  const problems: Problem[] = [];
  for (const id of new Set(ids)) {
    const read = await remembered(folder, `monograph ${id}`, () => loadHerbFile(folder, id));
    if (read.ok) found.set(id, read.value);
    else problems.push(...read.problems);
  }
  return problems.length > 0 ? failedLoading(problems) : { ok: true, value: found };
}

/** What compounding needs to know: the balance, and the water that each herb keeps back. */
export async function loadBench(
  folder: Folder,
  herbs: ReadonlyMap<string, HerbFile>,
  kind?: Kind,
): Promise<Loading<Bench>> {
  const water = await readTable(folder, 'water');
  if (!water.ok) return failedLoading(water.why);
  const { settings } = folder;
  const heldBack = (herb: string): HeldBack => {
    const m = herbs.get(herb)?.monograph ?? null;
    if (m?.holds_water)
      return {
        perGram: m.holds_water.amount,
        source: citeIn(m, m.holds_water),
        says: 'water kept back by the herb',
      };
    if (settings.holds) return { perGram: settings.holds, says: 'water kept back, measured by the practice' };
    return byPart(water.value.value, m?.part ?? '');
  };
  const shelf = await loadShelf(folder, kind);
  if (!shelf.ok) return shelf;
  const limited = await loadLimitedByLaw(folder, herbs);
  if (!limited.ok) return limited;
  const { balance, cylinder, boilsOff } = settings;
  return {
    ok: true,
    value: { balance, cylinder, heldBack, boilsOff, limited: limited.value, shelf: shelf.value },
  };
}

/** Kinds that are made of herb and water alone: nothing of the shelf but how long they keep. */
const OF_WATER: readonly Kind[] = ['infusion', 'decoction', 'cold-maceration', 'wash', 'powder'];

async function loadShelf(folder: Folder, kind: Kind | undefined): Promise<Loading<Shelf>> {
  const keeping = await readTable(folder, 'keeping');
  if (!keeping.ok) return failedLoading(keeping.why);
  if (kind !== undefined && OF_WATER.includes(kind))
    return { ok: true, value: emptyShelf(keeping.value.value, folder.settings) };
  const vehicles = await readTable(folder, 'vehicles');
  if (!vehicles.ok) return failedLoading(vehicles.why);
  const making = await readTable(folder, 'making');
  if (!making.ok) return failedLoading(making.why);
  const tables = { vehicles: vehicles.value.value, making: making.value.value, keeping: keeping.value.value };
  return { ok: true, value: shelfOf(tables, folder.settings) };
}

function byPart(table: Water, part: string): HeldBack {
  const said = part.split(/[^a-z]+/i);
  const row =
    table.held_back.find((r) => said.includes(r.part)) ?? table.held_back.find((r) => r.part === 'other');
  if (row === undefined) return { perGram: quantity(2, 'mL/g'), says: 'water kept back, a middle figure' };
  const source = table.sources[row.source];
  return {
    perGram: row.amount,
    says: `water kept back by a ${row.part === 'other' ? 'herb' : row.part} in general`,
    ...(source
      ? {
          source: {
            key: row.source,
            body: source.body,
            title: source.title,
            ref: source.ref,
            year: source.year,
            reading: row.reading ?? source.reading,
          },
        }
      : {}),
  };
}

/** A formula made up: its herbs' monographs and the batch. */
export interface MadeUp {
  readonly folder: Folder;
  readonly formula: Formula;
  readonly herbs: ReadonlyMap<string, HerbFile>;
  readonly batch: Batch;
  /** Of the formula's file, where it came from one. */
  readonly hash?: string;
}

export async function loadBatch(folder: Folder, id: string, options: BatchOptions): Promise<Loading<MadeUp>> {
  const formula = await loadFormula(folder, id);
  return formula.ok ? madeUp(folder, formula.value, options) : formula;
}

/** A formula that was read, of the folder or as a record has it, made up. */
export async function madeUp(
  folder: Folder,
  { value: formula, file, hash }: Read<Formula>,
  options: BatchOptions,
  recorded?: Extract<BatchAsked, { by: 'recorded' }>,
): Promise<Loading<MadeUp>> {
  const asked = recorded ? ok(recorded) : await batchAsked(options, folder, formula);
  if (!asked.ok) return failedLoading([usage(asked.why)]);
  const herbs = await loadMonographs(folder, herbsIn(formula));
  if (!herbs.ok) return herbs;
  const bench = await loadBench(folder, herbs.value, formula.preparation.kind);
  if (!bench.ok) return bench;
  const batch = compound(formula, asked.value, bench.value);
  if (!batch.ok) return failedLoading([{ code: 'bad-value', file, message: batch.why }]);
  return { ok: true, value: { folder, formula, herbs: herbs.value, batch: batch.value, hash } };
}
