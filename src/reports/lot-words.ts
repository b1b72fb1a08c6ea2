import type { KeptAs } from '../folder/schema/record.ts';
import { write } from '../measure/write.ts';

type Lot = KeptAs<'lot'>;

/** What a lot is of, as it stands on the jar: `valerian-root (tincture, 1:5 w/v, 60 % v/v)`. */
export function lotWords({ herb, vehicle, form, ratio, spirit, glycerol }: Lot): string {
  const what = herb ?? vehicle ?? 'spirit';
  const how = [
    ...(form ? [form] : []),
    ...(ratio ? [ratio.text] : []),
    ...(spirit ? [write(spirit)] : []),
    ...(glycerol ? [`glycerol ${write(glycerol)}`] : []),
  ];
  return how.length > 0 ? `${what} (${how.join(', ')})` : what;
}

/** Where it is from: bought, gathered or made here. */
export function originWords({ bought, gathered, made }: Lot): string {
  if (bought) return `bought of ${bought.from}${bought.lot ? `, their lot ${bought.lot}` : ''}`;
  if (made) return `made here, batch ${made.batch}`;
  if (!gathered) return '';
  const { place, leave, identified_by: who, fresh, dry } = gathered;
  const weights = [...(fresh ? [`${write(fresh)} fresh`] : []), ...(dry ? [`${write(dry)} dry`] : [])];
  return [`gathered at ${place}, with leave of ${leave}, identified by ${who}`, ...weights].join(', ');
}
