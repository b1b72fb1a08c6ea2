import type { Cited } from '../measure/figure.ts';
import type { Sourced } from './schema/fields.ts';
import type { Monograph } from './schema/monograph.ts';

/** The source of a fact as it is cited, the fact's own reading before its source's. */
export function citeIn(m: Pick<Monograph, 'sources'>, fact: Sourced): Cited {
  const s = m.sources[fact.source];
  if (!s) throw new Error(`the source ${fact.source} is not in the file`);
  return {
    key: fact.source,
    body: s.body,
    title: s.title,
    ref: s.ref,
    year: s.year,
    reading: fact.reading ?? s.reading,
  };
}
