import type { Form } from '../folder/forms.ts';
import type { Formula, Ingredient, Kind, Preparation } from '../folder/schema/formula.ts';
import type { DosedKind } from '../folder/schema/monograph.ts';

/** How published texts name what a formula makes of a herb: their kinds of preparation and their routes. */

export type Route = NonNullable<Formula['route']>;

/** The route that the formula names, else the usual one of its kind. */
export function routeOf({ route, preparation: p }: Formula): Route {
  if (route !== undefined) return route;
  if (p.kind === 'wash') return WASH_ROUTES[p.for];
  return USUAL_ROUTES[p.kind] ?? 'oral';
}

const WASH_ROUTES: Readonly<Record<Extract<Preparation, { kind: 'wash' }>['for'], Route>> = {
  bath: 'bath',
  compress: 'cutaneous',
  gargle: 'oromucosal',
};
const USUAL_ROUTES: Partial<Record<Kind, Route>> = {
  'infused-oil': 'cutaneous',
  ointment: 'cutaneous',
  suppository: 'rectal',
};

/**
 * The kinds that a published dose of this herb may be stated for. Capsules hold powder, a percolate is a tincture, a
 * syrup of an infusion is an infusion as well, and in a blend each herb is what it was drawn out as.
 */
export function dosedAs(formula: Formula, ingredient: Ingredient | undefined): readonly DosedKind[] {
  const { preparation: p } = formula;
  if (formula.route === 'inhalation') return ['inhalation', ...AS_FORM[ingredient?.form ?? 'dried']];
  switch (p.kind) {
    case 'capsule':
      return ['powder'];
    case 'fresh-tincture':
    case 'percolation':
      return ['tincture'];
    case 'liquid-blend':
    case 'drops':
      return AS_FORM[ingredient?.form ?? 'dried'];
    case 'syrup':
      return ['syrup', p.by];
    case 'honey':
      return p.strained ? ['honey'] : ['honey', 'powder'];
    case 'oxymel':
      return ['other'];
    case 'wash':
      return [p.for, 'wash', p.infuse ? 'infusion' : 'decoction'];
    default:
      return [p.kind];
  }
}

const AS_FORM: Readonly<Record<Form, readonly DosedKind[]>> = {
  dried: [],
  powder: ['powder'],
  fresh: [],
  tincture: ['tincture'],
  'liquid-extract': ['liquid-extract'],
  glycerite: ['glycerite'],
  syrup: ['syrup'],
  honey: ['honey'],
  oxymel: ['other'],
  'infused-oil': ['infused-oil'],
  'essential-oil': ['essential-oil'],
};

/** As `dosedAs`, of a herb of the formula by its id. */
export const herbDosedAs = (formula: Formula, herb: string): readonly DosedKind[] =>
  dosedAs(
    formula,
    formula.ingredients.find((i) => i.herb === herb),
  );
