/** The mark of the nth source below a table, from 0: a, b ... z, aa, ab ... Letters, because the working has numbers. */
export function letterOf(n: number): string {
  const last = String.fromCharCode('a'.charCodeAt(0) + (n % 26));
  return n < 26 ? last : letterOf(Math.floor(n / 26) - 1) + last;
}
