import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { sha256 } from './hash.ts';
import type { FileKind, Holds } from './kinds.ts';
import { type ReadResult, readDocument } from './read.ts';

/** The ending of a practitioner's own additions to a shared table: `medicines.own.yaml` beside `medicines.yaml`. */
export const OWN = '.own';

/** A shared table with the practitioner's own additions, if there are any: lists grow, and nothing shipped is replaced. */
export async function withOwnAdditions<K extends FileKind>(
  root: string,
  kind: K,
  shipped: ReadResult<Holds[K]>,
): Promise<ReadResult<Holds[K]>> {
  const place = join('monographs', 'reference', `${kind}${OWN}.yaml`);
  if (!shipped.ok || !existsSync(join(root, place))) return shipped;
  const own = await readDocument(kind, join(root, place), place);
  if (!own.ok) return own;
  const { file, hash, value } = shipped.value;
  return {
    ok: true,
    value: {
      file,
      hash: await sha256(`${hash}${own.value.hash}`),
      value: grown(value as object, own.value.value as object) as Holds[K],
    },
  };
}

function grown(shipped: object, own: object): object {
  const out: Record<string, unknown> = { ...shipped };
  for (const [key, added] of Object.entries(own)) {
    const before = out[key];
    if (Array.isArray(added)) out[key] = [...(Array.isArray(before) ? before : []), ...added];
    else if (key === 'sources') out[key] = { ...(added as object), ...(before as object) };
  }
  return out;
}
