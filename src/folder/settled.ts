import { ambiguousWord, type Unit, unitByName } from '../measure/units.ts';

/**
 * The unit that a practice means by an ambiguous word: by its full name, or by its system (imperial, US) where all that
 * the word can mean is of one kind. An imperial ounce is a mass to most and a volume to some.
 */
export function settledUnit(word: string, meaning: string): Unit | undefined {
  const could = ambiguousWord(word)?.could ?? [];
  const named = unitByName(meaning);
  if (named && could.includes(named)) return named;
  if (new Set(could.map((u) => u.dimension)).size > 1) return undefined;
  const system = systemNamed(meaning);
  return system === undefined ? undefined : could.find((u) => u.symbol.startsWith(system));
}

function systemNamed(meaning: string): string | undefined {
  if (/^(imperial|imp|uk|british)$/i.test(meaning)) return 'imp ';
  return /^(us|american)$/i.test(meaning) ? 'US ' : undefined;
}
