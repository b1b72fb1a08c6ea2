import type { Batch } from '../compounding/compound.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Formula, Ingredient } from '../folder/schema/formula.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { LabelFacts } from '../folder/schema/record.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { show } from '../measure/figure.ts';
import { type Quantity, ratioOf, times } from '../measure/quantity.ts';
import { write } from '../measure/write.ts';
import { textOf } from './pieces.ts';
import { sentenceOf } from './sheet.ts';
import { takenLine } from './taken.ts';

/** What a remedy's label carries, in plain English, worked out once and kept with the record. */
export function labelFacts(
  batch: Batch,
  monographs: ReadonlyMap<string, Monograph | null>,
  handed: Quantity,
  dates: { readonly made: CalendarDate; readonly discard_after: CalendarDate },
  says: readonly string[],
): LabelFacts {
  const { making, formula } = batch;
  const strength = making.kind === 'product' && making.strength ? show(making.strength) : undefined;
  return {
    title: `${formula.title}, ${write(handed)}`,
    contents: contentsOf(batch, monographs, handed),
    ...(strength ? { strength: `${strength} ethanol` } : {}),
    directions: directionsOf(batch),
    ...dates,
    says: [...says],
  };
}

/** What is made of a whole batch, in the measure in which it is handed over. */
export const madeOf = ({ making, total }: Pick<Batch, 'making' | 'total'>): Quantity =>
  making.kind === 'product' ? making.makes.value : total.value;

/** What there is of it once it is pressed and filtered, at the least. */
export function inHandOf(batch: Pick<Batch, 'making' | 'total'>): Quantity {
  const { making } = batch;
  return (making.kind === 'product' && making.yields?.value.low) || madeOf(batch);
}

/** Each herb with what of it is in the bottle: its share of what is handed over. */
function contentsOf(
  batch: Batch,
  monographs: ReadonlyMap<string, Monograph | null>,
  handed: Quantity,
): string[] {
  const share = ratioOf(handed, madeOf(batch));
  return batch.formula.ingredients.flatMap((i) => {
    const line = batch.lines.find((l) => l.key === keyOf(i));
    if (!line) return [];
    const amount = times(line.weigh.value, share);
    return [`${nameOf(i, monographs)}${drawnWords(i)}: ${write(amount)}`];
  });
}

/** The name in use and the Latin name; the part is in the herb's own id. */
function nameOf(i: Ingredient, monographs: ReadonlyMap<string, Monograph | null>): string {
  const plain = keyOf(i).replace(/-/g, ' ');
  const latin = i.herb === undefined ? undefined : monographs.get(i.herb)?.names.latin;
  const [genus, species] = latin?.split(' ') ?? [];
  return species ? `${plain} (${genus} ${species})` : plain;
}

function drawnWords({ form, ratio, spirit }: Ingredient): string {
  const how = [
    ...(form && form !== 'dried' ? [form.replace(/-/g, ' ')] : []),
    ...(ratio ? [ratio.text] : []),
    ...(spirit ? [`in ${write(spirit)} spirit`] : []),
  ];
  return how.length > 0 ? `, ${how.join(' ')}` : '';
}

/** What is done with it, by the way it goes; the words of the European pharmacopoeia's routes. */
const VERB: Readonly<Record<NonNullable<Formula['route']>, string>> = {
  oral: 'Take',
  oromucosal: 'Use in the mouth:',
  inhalation: 'Inhale the steam of',
  cutaneous: 'Put on the skin:',
  rectal: 'Insert into the rectum:',
  vaginal: 'Insert into the vagina:',
  bath: 'Use for the bath:',
};

function directionsOf(batch: Batch): string[] {
  const { formula, making } = batch;
  const { directions } = formula;
  // A dry blend is made up at home, a pot at a time.
  const make = making.kind === 'pot' ? making.method.map((m) => textOf(sentenceOf(m))) : [];
  if (directions === undefined) return make;
  const how = textOf(takenLine(batch));
  const verb = VERB[formula.route ?? 'oral'];
  const take = directions.apply === undefined ? `${verb} ${how}` : how.charAt(0).toUpperCase() + how.slice(1);
  const beside = directions.with ? `, with ${directions.with}` : '';
  return [...make, `${take}${beside}.`];
}

/** What the check says to the person, each once, with the herbs by their names and not by their ids. */
export function saidToPerson(
  findings: readonly { readonly level: string; readonly say: string }[],
  herbs: readonly string[],
): string[] {
  const named = (say: string): string =>
    herbs.reduce((text, id) => text.replaceAll(id, id.replace(/-/g, ' ')), say);
  return [...new Set(findings.filter((f) => f.level === 'note').map((f) => named(f.say)))];
}
