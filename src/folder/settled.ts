import { ambiguousWord, type Unit, unitByName } from '../measure/units.ts';

/** The unit that a practice means by an ambiguous word: by its full name, or by its system (imperial, US). */
export function settledUnit(word: string, meaning: string): Unit | undefined {
  const could = ambiguousWord(word)?.could ?? [];
  const named = unitByName(meaning);
  if (named && could.includes(named)) return named;
  const system = /^(imperial|imp|uk|british)$/i.test(meaning)
    ? /^imp /i
    : /^(us|american)$/i.test(meaning)
      ? /^US /i
      : null;
  return system === null ? undefined : could.find((u) => system.test(u.symbol));
}
