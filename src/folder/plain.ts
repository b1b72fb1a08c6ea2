import {
  type Alias,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { UNREAD } from './explain.ts';
import { Places } from './positions.ts';
import type { ProblemCode } from './problem.ts';

/** A fault in the writing that leaves the rest of the file readable, so that all of it can be judged at once. */
export interface Fault {
  readonly code: ProblemCode;
  readonly message: string;
  readonly offset: number;
}

/** A document as maps, lists and texts, where each stands, and what was wrong on the way. */
export interface Plain {
  readonly value: unknown;
  readonly places: Places;
  readonly faults: readonly Fault[];
}

/** What aliases may add to a file, in values. Honest ones save a few lines; piled-up ones double at every level. */
const MOST_REPEATED = 20_000;

/**
 * Turns a YAML document into plain values. No key of a file reaches a prototype: `__proto__` is refused, any other
 * becomes a key of the map's own. A key that stands twice keeps its first value; an alias is the very value that its
 * anchor names.
 */
export function plainValues(doc: Document): Plain {
  const walk = new Walk();
  return { value: walk.value(doc.contents), places: walk.places, faults: walk.faults };
}

/** An anchored value, how many values it holds, and whether it has been read to its end. */
interface Anchored {
  value: unknown;
  size: number;
  done: boolean;
}

class Walk {
  readonly places = new Places();
  readonly faults: Fault[] = [];
  readonly #anchors = new Map<string, Anchored>();
  #size = 0;
  #repeated = 0;

  value(node: unknown): unknown {
    this.#size += 1;
    if (isAlias(node)) return this.#aliased(node);
    const anchor = (node as { anchor?: string } | null)?.anchor;
    if (anchor === undefined) return this.#plain(node);
    const anchored: Anchored = { value: undefined, size: this.#size, done: false };
    this.#anchors.set(anchor, anchored);
    anchored.value = this.#plain(node);
    anchored.size = this.#size - anchored.size + 1;
    anchored.done = true;
    return anchored.value;
  }

  #plain(node: unknown): unknown {
    if (isMap(node)) return this.#map(node);
    if (isSeq(node)) return this.#list(node);
    return isScalar(node) && typeof node.value === 'string' ? node.value : '';
  }

  #map(node: YAMLMap): unknown {
    const map: Record<string, unknown> = {};
    this.places.set(map, node);
    for (const { key, value } of node.items) {
      const name = isScalar(key) && typeof key.value === 'string' ? key.value : undefined;
      const read = this.value(value);
      if (name === undefined) this.#fault(key, 'bad-key', 'a key must be a plain word: write "key: value"');
      else if (name === '') this.#fault(key, 'bad-key', 'the key before this colon is missing');
      else if (name === '__proto__')
        this.#fault(key, 'unknown-key', '"__proto__" cannot be a key: choose another name');
      else if (Object.hasOwn(map, name))
        this.#fault(key, 'duplicate-key', `"${name}" stands twice in one map: keep one`);
      else map[name] = read;
    }
    return map;
  }

  #list(node: YAMLSeq): unknown {
    const list: unknown[] = [];
    this.places.set(list, node);
    for (const item of node.items) list.push(this.value(item));
    return list;
  }

  #aliased(alias: Alias): unknown {
    const anchored = this.#anchors.get(alias.source);
    const named = `*${alias.source}`;
    if (anchored === undefined) {
      this.#fault(
        alias,
        'bad-alias',
        `no &${alias.source} stands before ${named}: write the value out, or put the text in quotes`,
      );
      return UNREAD;
    }
    if (!anchored.done) {
      this.#fault(
        alias,
        'bad-alias',
        `${named} stands within the value that it repeats: write the value out`,
      );
      return UNREAD;
    }
    this.#size += anchored.size;
    const before = this.#repeated;
    this.#repeated += anchored.size;
    if (this.#repeated <= MOST_REPEATED) return anchored.value;
    if (before <= MOST_REPEATED)
      this.#fault(
        alias,
        'too-many-aliases',
        `with ${named} the aliases repeat too much: write the values out`,
      );
    return UNREAD;
  }

  #fault(node: unknown, code: ProblemCode, message: string): void {
    this.faults.push({ code, message, offset: (node as Node | null)?.range?.[0] ?? 0 });
  }
}
