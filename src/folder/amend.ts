import { isMap, isSeq, parseDocument, stringify, type YAMLMap } from 'yaml';

/** What is written anew of one ingredient: keys that it gets, keys that it loses; `gone` takes the whole line out. */
export interface Amendment {
  readonly of: string;
  readonly set?: Readonly<Record<string, string>>;
  readonly unset?: readonly string[];
  readonly gone?: boolean;
  /** Under which key the line is found, or made where there is none. */
  readonly as: 'herb' | 'vehicle';
}

/** A formula's text with some of its ingredients changed. What is in order before is the caller's to see to. */
export function amendedText(
  text: string,
  amendments: readonly Amendment[],
  unset: readonly string[],
): string {
  const doc = parseDocument(text, { schema: 'failsafe', version: '1.2' });
  const lines = doc.get('ingredients');
  if (!isSeq(lines)) throw new Error('a formula without ingredients');
  for (const { of, set = {}, unset: lost = [], gone, as } of amendments) {
    const at = lines.items.findIndex((i) => isMap(i) && (i.get('herb') ?? i.get('vehicle')) === of);
    if (gone) {
      lines.items.splice(at, 1);
      continue;
    }
    if (at < 0) lines.items.push(doc.createNode({ [as]: of }, { flow: true }));
    const line = lines.items[at < 0 ? lines.items.length - 1 : at] as YAMLMap;
    for (const key of lost) line.delete(key);
    for (const [key, value] of Object.entries(set)) line.set(key, value);
  }
  for (const key of unset) doc.delete(key);
  return doc.toString({ lineWidth: 0 });
}

/** Plain values as YAML that other programs read alike: what might pass for a number or for yes and no stands in quotes. */
export function yamlOf(value: unknown): string {
  return stringify(value, { lineWidth: 100, version: '1.2', blockQuote: 'literal' });
}
