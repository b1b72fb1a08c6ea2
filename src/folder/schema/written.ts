import * as z from 'zod';
import type { Dimension } from '../../measure/units.ts';

/**
 * What an editor is told of a field beyond its type. The fields are texts that our own parsers read, and zod cannot
 * look into a parser; whoever makes a JSON Schema of a field finds it here.
 */
export interface Written {
  readonly says?: string;
  readonly examples?: readonly string[];
  /** Exactly what the parser takes, where that can be said so; never a guess at it. */
  readonly pattern?: string;
  readonly maxLength?: number;
  /** Whether the parser reads this text: which of the editor's numbers and truth values are right is asked of it. */
  readonly takes?: (text: string) => boolean;
  /** One of it may stand where a list may. */
  readonly oneOrMore?: true;
  /** `null` and `~` say that there is none. */
  readonly nothing?: true;
}

export const written = z.registry<Written>();

/** A quantity of each kind, as it is written. */
const LIKE: Partial<Record<Dimension, string>> = {
  mass: '1.5 g',
  volume: '150 mL',
  time: '7 days',
  length: '122 cm',
  share: '12 %',
  'share v/v': '45 % v/v',
  'share m/m': '65 % m/m',
  'share w/v': '5 % w/v',
  'mass per volume': '0.92 g/mL',
  'volume per mass': '2 mL/g',
  'volume per time': '8 mL/min',
  'drops per volume': '35 drops/mL',
  drops: '20 drops',
  count: '2 capsules',
};

export function examplesOf(of: readonly Dimension[]): string[] {
  return of.flatMap((d) => LIKE[d] ?? []);
}
