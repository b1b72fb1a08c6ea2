import type { TakenHerb, Unresolved } from '../checking/person.ts';
import { asDried, herbDoses } from '../dosing/equivalents.ts';
import type { Folder } from '../folder/folder.ts';
import { findHerb } from '../folder/herb-names.ts';
import { herbsIn } from '../folder/ingredients.ts';
import type { Patient } from '../folder/schema/patient.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { inUnit, type Quantity, type Range } from '../measure/quantity.ts';
import { gram } from '../measure/units.ts';
import { type Loading, loadBatch, loadMonographs } from './load.ts';
import { once, remembered } from './once.ts';
import { stoppedOf } from './person-words.ts';

/** What a person takes already, with the monographs of its herbs. */

/** The most of it that is taken in a day, where that was said as a weight. */
function gramsADay(t: object & { readonly daily?: Range | undefined }): Quantity | null {
  const most = t.daily?.high ?? null;
  return most?.unit.dimension === 'mass' ? inUnit(most, gram) : null;
}

type Dates = Pick<TakenHerb, 'since' | 'stopped'>;

const NOT_SAID = 'what is taken already';

/** A herb of the folder as it is taken, with its monograph; several ids where the name is borne by several. */
async function takenHerbs(
  folder: Folder,
  name: string,
  how: Omit<TakenHerb, 'herb' | 'monograph'>,
): Promise<Loading<{ readonly herbs: TakenHerb[]; readonly near: readonly string[] | null }>> {
  const named = await remembered(folder, `herb ${name}`, () => findHerb(folder, name));
  const ids = named.kind === 'several' ? named.ids : [named.kind === 'found' ? named.id : name];
  const files = await loadMonographs(folder, named.kind === 'none' ? [] : ids);
  if (!files.ok) return files;
  const herbs = ids.map((herb) => ({ herb, monograph: files.value.get(herb)?.monograph ?? null, ...how }));
  return { ok: true, value: { herbs, near: named.kind === 'none' ? named.near : null } };
}

/** A herb that was handed in as a medicine, under the first of its names that the folder knows. */
export async function takenAsMedicine(
  folder: Folder,
  names: readonly string[],
  dates: Dates,
): Promise<Loading<readonly TakenHerb[]>> {
  const how = { from: 'the medicines', daily: null, ...dates };
  for (const name of names) {
    const one = await takenHerbs(folder, name, how);
    if (!one.ok) return one;
    if (one.value.near === null) return { ok: true, value: one.value.herbs };
  }
  return { ok: true, value: names.slice(0, 1).map((herb) => ({ herb, monograph: null, ...how })) };
}

/** What a formula gives of each of its herbs in a day, as it stands in the folder. */
async function takenInFormula(folder: Folder, id: string, dates: Dates): Promise<Loading<TakenHerb[]>> {
  const made = await once(folder, `made ${id}`, () => loadBatch(folder, id, {}));
  if (!made.ok) return made;
  const doses = new Map(herbDoses(made.value.batch).map((d) => [d.herb, d]));
  return {
    ok: true,
    value: herbsIn(made.value.formula).flatMap((herb): TakenHerb[] => {
      const dose = doses.get(herb);
      if (dose && dose.route !== 'oral') return [];
      const daily = (dose && asDried(dose)?.daily.value) ?? null;
      const weighed = daily?.unit.dimension === 'mass' ? inUnit(daily, gram) : null;
      const monograph = made.value.herbs.get(herb)?.monograph ?? null;
      return [{ herb, monograph, from: id, daily: weighed, ...dates }];
    }),
  };
}

/** What the person takes already, herb by herb; a formula stands for each of its herbs. */
export async function takingOf(
  list: NonNullable<Patient['taking']>,
  folder: Folder,
  unresolved: Unresolved[],
  on: CalendarDate,
  countsFor: Quantity | null,
): Promise<Loading<TakenHerb[]>> {
  const taken: TakenHerb[] = [];
  for (const t of list) {
    const stopped = stoppedOf(t, on, countsFor);
    if (stopped === 'long ago') continue;
    const dates = { since: 'since' in t ? (t.since?.earliest ?? null) : null, stopped };
    if ('formula' in t && t.formula !== undefined) {
      const formula = await takenInFormula(folder, t.formula, dates);
      if (!formula.ok) return formula;
      taken.push(...formula.value);
      continue;
    }
    const product = 'product' in t ? t.product : undefined;
    const holds = product === undefined ? [t] : ('holds' in t && t.holds) || [];
    for (const h of holds) {
      if (h.herb === undefined) continue;
      const one = await takenHerbs(folder, h.herb, {
        from: product ?? NOT_SAID,
        daily: gramsADay(h),
        ...dates,
      });
      if (!one.ok) return one;
      taken.push(...one.value.herbs);
      if (one.value.near !== null)
        unresolved.push({ list: 'taking', word: h.herb, ambiguous: false, could: [], near: one.value.near });
    }
    // What a shop product holds is not known here, and what is not known is asked.
    if (product !== undefined && holds.length === 0)
      unresolved.push({ list: 'taking', word: product, ambiguous: false, could: [], near: [] });
  }
  return { ok: true, value: taken };
}
