import type { Medicines } from '../folder/schema/reference.ts';
import { normal } from './normal.ts';

/** The route by which a medicine is used, as far as the codes tell routes apart. */
export type Route = 'oral' | 'inhaled' | 'local';

export const ROUTES: readonly Route[] = ['oral', 'inhaled', 'local'];

/** A medicine's name without strength, unit and form, and the route that its form told. */
export interface Cut {
  readonly name: string;
  readonly route: Route | undefined;
}

/** Phrases by their first word, longest first, each with the route it tells or none. */
export type FormWords = ReadonlyMap<
  string,
  readonly { readonly words: readonly string[]; readonly route: Route | undefined }[]
>;

export function formWords(table: Medicines): FormWords {
  const index = new Map<string, { words: string[]; route: Route | undefined }[]>();
  const add = (phrase: string, route: Route | undefined): void => {
    const words = normal(phrase).split(' ');
    const first = words[0] ?? '';
    index.set(
      first,
      [...(index.get(first) ?? []), { words, route }].sort((a, b) => b.words.length - a.words.length),
    );
  };
  for (const route of ROUTES) for (const phrase of table.form_words?.[route] ?? []) add(phrase, route);
  for (const phrase of table.form_words?.silent ?? []) add(phrase, undefined);
  return index;
}

/** Cuts strengths, units and form words from a normal word: "hydrocortisone 1% cream" is hydrocortisone, used locally. */
export function cutForm(word: string, forms: FormWords): Cut {
  const tokens = word.split(' ');
  const kept: string[] = [];
  const told = new Set<Route>();
  for (let i = 0; i < tokens.length; ) {
    const phrase = forms.get(tokens[i] ?? '')?.find((p) => p.words.every((w, k) => tokens[i + k] === w));
    if (phrase) {
      if (phrase.route) told.add(phrase.route);
      i += phrase.words.length;
      continue;
    }
    const token = tokens[i] ?? '';
    if (!isStrength(token, forms)) kept.push(token);
    i += 1;
  }
  // Two routes in one name ("oral gel") tell none: every code then counts.
  return { name: kept.join(' '), route: told.size === 1 ? [...told][0] : undefined };
}

function isStrength(token: string, forms: FormWords): boolean {
  const unit = /^\d+(?:[.,]\d+)*(.*)$/.exec(token)?.[1];
  return unit !== undefined && (unit === '' || forms.has(unit));
}
