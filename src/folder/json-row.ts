import { putKey } from '../measure/put-key.ts';
import { bad, ok, type Result } from '../measure/result.ts';

/**
 * One row of newline-delimited JSON (RFC 8259), read as our YAML files are: every scalar stays the text that was
 * written, so that `0.50`, `1e400` and a figure of thirty digits reach our own parsers untouched, and a key that stands
 * twice is refused. A general JSON reader turns figures into binary fractions and lets the last of two keys win.
 */

export type Row = string | readonly Row[] | { readonly [key: string]: Row };

/** Deeper than any answer of ours; the reader goes down by recursion. */
const DEEPEST = 50;

/** Where each value of a row stands, by its path, from 0. */
export type RowPlaces = Map<string, number>;

export interface RowFault {
  readonly at: number;
  readonly message: string;
}

const SPACE = /[ \t\r\n]*/y;
const TEXT = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const BARE = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?(?![\w.+-])|(?:true|false|null)(?!\w)/y;

class Stop extends Error {
  readonly at: number;
  constructor(at: number, message: string) {
    super(message);
    this.at = at;
  }
}

export const pathKey = (path: readonly PropertyKey[]): string => path.map(String).join('\u0000');

/** Reads a row; `places`, if given, gets where each value stands. */
export function readRow(text: string, places?: RowPlaces): Result<Row, RowFault> {
  let at = 0;
  const space = (): void => {
    SPACE.lastIndex = at;
    SPACE.test(text);
    at = SPACE.lastIndex;
  };
  const match = (pattern: RegExp): string | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0] ?? null;
    if (found !== null) at += found.length;
    return found;
  };
  const key = (): string => {
    const quoted = match(TEXT);
    if (quoted === null) throw new Stop(at, 'a key in double quotes belongs here');
    return quoted.includes('\\') ? (JSON.parse(quoted) as string) : quoted.slice(1, -1);
  };
  const value = (path: readonly PropertyKey[]): Row => {
    space();
    places?.set(pathKey(path), at);
    const sign = text[at];
    if (sign === '{') return map(path);
    if (sign === '[') return list(path);
    if (sign === '"') {
      const quoted = match(TEXT);
      if (quoted === null) throw new Stop(at, 'this text does not end, or holds what JSON does not allow');
      return quoted.includes('\\') ? (JSON.parse(quoted) as string) : quoted.slice(1, -1);
    }
    const bare = match(BARE);
    if (bare === null) throw new Stop(at, at < text.length ? 'this is not JSON' : 'the row ends too early');
    return bare;
  };
  const inside = (path: readonly PropertyKey[]): void => {
    if (path.length > DEEPEST) throw new Stop(at, 'lists and maps go too deep here: write them flatter');
    at += 1;
    space();
  };
  /** True after a comma, false at the end. */
  const goesOn = (end: string): boolean => {
    space();
    const sign = text[at];
    if (sign !== ',' && sign !== end) throw new Stop(at, `"${end}" or a comma belongs here`);
    at += 1;
    return sign === ',';
  };
  const list = (path: readonly PropertyKey[]): Row[] => {
    inside(path);
    const items: Row[] = [];
    if (text[at] === ']') {
      at += 1;
      return items;
    }
    do items.push(value([...path, items.length]));
    while (goesOn(']'));
    return items;
  };
  const map = (path: readonly PropertyKey[]): Row => {
    inside(path);
    const made: Record<string, Row> = {};
    if (text[at] === '}') {
      at += 1;
      return made;
    }
    do {
      space();
      const begin = at;
      const name = key();
      if (Object.hasOwn(made, name)) throw new Stop(begin, `"${name}" stands twice: keep one`);
      space();
      if (text[at] !== ':') throw new Stop(at, 'a colon belongs here');
      at += 1;
      putKey(made, name, value([...path, name]));
    } while (goesOn('}'));
    return made;
  };
  try {
    const row = value([]);
    space();
    return at < text.length
      ? bad({ at, message: 'more follows after the row: write one to a line' })
      : ok(row);
  } catch (error) {
    if (error instanceof Stop) return bad({ at: error.at, message: error.message });
    throw error;
  }
}
