import { distance } from 'fastest-levenshtein';

/**
 * Up to three words nearest in spelling, for a suggestion; never used to resolve a word.
 * At most a third of the letters may differ, and never more than three.
 */
export function nearest(word: string, among: Iterable<string>, most = 3): string[] {
  const w = word.toLowerCase();
  const limit = Math.min(3, Math.max(1, Math.floor(w.length / 3)));
  const scored: { word: string; away: number }[] = [];
  for (const candidate of among) {
    const c = candidate.toLowerCase();
    if (Math.abs(c.length - w.length) > limit) continue;
    const away = swapped(w, c) ? 1 : distance(w, c);
    if (away <= limit) scored.push({ word: candidate, away });
  }
  scored.sort((a, b) => a.away - b.away || (a.word < b.word ? -1 : 1));
  return [...new Set(scored.map((s) => s.word))].slice(0, most);
}

/** Two neighbouring letters changed places, the commonest slip of the fingers: one mistake and not two. */
function swapped(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return at >= 0 && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
}
