import { createHash } from 'node:crypto';
import { canonical } from '../checking/finding.ts';
import { holds } from '../checking/intake.ts';
import { namedBy } from '../checking/law/names.ts';
import { isPlant } from '../checking/plant.ts';
import type { CheckTables } from '../checking/tables.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { RestsOn } from '../folder/schema/record.ts';

/** A hash of what something means: comments, the order of keys and how a line is broken change nothing. */
export function meaningOf(value: unknown): string {
  return createHash('sha256').update(canonical(value)).digest('hex').slice(0, 32);
}

/**
 * What a remedy was judged by, herb by herb: its monograph, and whatever the shared tables limit of it,
 * each as a hash, so that later `trace --changed` finds whom a changed figure touches, and nobody else.
 */
export function restsOn(
  herbs: ReadonlyMap<string, Monograph | null>,
  tables: Pick<CheckTables, 'intake' | 'effects' | 'legal'>,
): RestsOn['herbs'] {
  return [...herbs].map(([herb, monograph]) => ({
    herb,
    monograph: monograph ? meaningOf(monograph) : undefined,
    limits: meaningOf(limitsOf(herb, monograph, tables)),
  }));
}

/** The lines of the shared tables that speak of a herb. */
function limitsOf(
  herb: string,
  monograph: Monograph | null,
  { intake, effects, legal }: Pick<CheckTables, 'intake' | 'effects' | 'legal'>,
): unknown {
  const portion = { herb, monograph };
  return {
    intake: intake.limits.filter((l) => holds(portion, l)),
    oils: intake.oils.plants.some((p) => isPlant(portion, p)) ? intake.oils : null,
    effects: effects.effects.filter(
      (e) =>
        e.herbs.some((h) => h.latin.some((l) => isPlant(portion, l))) || monograph?.effects?.includes(e.id),
    ),
    legal: namedBy(legal, herb, monograph).map(({ limit }) => limit),
  };
}
