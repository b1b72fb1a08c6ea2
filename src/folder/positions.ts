import { type Document, isMap, isPair, isScalar, isSeq, type LineCounter, type Node, type Pair } from 'yaml';

/** Where in a file something stands. Lines and columns count from 1; every position comes from here. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export type Path = readonly PropertyKey[];

function pairOf(node: Node, key: PropertyKey): Pair | undefined {
  if (!isMap(node)) return undefined;
  return node.items.find((p) => isPair(p) && isScalar(p.key) && String(p.key.value) === String(key)) as
    | Pair
    | undefined;
}

/** The position of the key at `path`, or of the nearest thing above it that the file does hold. */
export function positionOf(doc: Document, lines: LineCounter, path: Path): Position {
  let node: Node | null | undefined = doc.contents;
  let offset = node?.range?.[0] ?? 0;
  for (const part of path) {
    if (!node) break;
    const alias: Node | undefined =
      'source' in node && !('items' in node) && !isScalar(node)
        ? (node as { resolve(d: Document): Node }).resolve(doc)
        : undefined;
    const at: Node = alias ?? node;
    if (isSeq(at)) {
      const item = at.items[Number(part)] as Node | undefined;
      if (!item) break;
      offset = item.range?.[0] ?? offset;
      node = item;
    } else {
      const pair = pairOf(at, part);
      if (!pair) break;
      offset = (pair.key as Node).range?.[0] ?? offset;
      node = pair.value as Node | null;
    }
  }
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
}
