import type { Node, YAMLMap, YAMLSeq } from 'yaml';
import { isMap, isScalar } from 'yaml';

/** Where in a file something stands. Lines and columns count from 1; every position comes from here. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export type Path = readonly PropertyKey[];

/**
 * Which part of the file each map and list was read from. Places are looked up by the maps and lists themselves, so
 * that what stands behind an alias is found where it was written; the keys of a map are gone through only when one
 * of them is asked for.
 */
export class Places {
  readonly #nodes = new Map<object, YAMLMap | YAMLSeq>();
  readonly #keys = new Map<YAMLMap, Map<string, number>>();

  set(value: object, node: YAMLMap | YAMLSeq): void {
    this.#nodes.set(value, node);
  }

  /** Where the key or item `part` of this map or list begins; undefined where it holds none. */
  offsetIn(value: object, part: PropertyKey): number | undefined {
    const node = this.#nodes.get(value);
    if (node === undefined) return undefined;
    if (isMap(node)) return this.#keysOf(node).get(String(part));
    return (node.items[Number(part)] as Node | null | undefined)?.range?.[0];
  }

  #keysOf(node: YAMLMap): Map<string, number> {
    const known = this.#keys.get(node);
    if (known) return known;
    const keys = new Map<string, number>();
    for (const { key } of node.items) {
      const at = (key as Node | null)?.range?.[0];
      if (isScalar(key) && at !== undefined && !keys.has(String(key.value))) keys.set(String(key.value), at);
    }
    this.#keys.set(node, keys);
    return keys;
  }
}

/** The offset of the key at `path`, or of the nearest thing above it that the file does hold. */
export function offsetOf(places: Places, root: unknown, start: number, path: Path): number {
  let at = root;
  let offset = start;
  for (const part of path) {
    if (at === null || typeof at !== 'object') break;
    const found = places.offsetIn(at, part);
    if (found === undefined) break;
    offset = found;
    at = (at as Record<PropertyKey, unknown>)[part];
  }
  return offset;
}

/**
 * Where each line of a text begins. Counted here and not by the YAML library, which misses the line ends within what
 * it cannot make sense of.
 */
export function lineStartsOf(text: string): number[] {
  const starts = [0];
  for (let feed = text.indexOf('\n'); feed >= 0; feed = text.indexOf('\n', feed + 1)) starts.push(feed + 1);
  return starts;
}

export function positionAt(lineStarts: readonly number[], offset: number): Position {
  let [low, high] = [0, lineStarts.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((lineStarts[middle] ?? 0) <= offset) low = middle;
    else high = middle;
  }
  return { line: low + 1, column: offset - (lineStarts[low] ?? 0) + 1 };
}
