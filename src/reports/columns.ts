/**
 * Shares `room` out among columns: each as wide as it would like to be if all fit, else none below its least, and
 * the spare goes to the narrowest that still lacks some, so that short columns stay whole and long ones wrap.
 * Undefined where not even the least of each fits.
 */
export function shareWidths(
  wanted: readonly number[],
  least: readonly number[],
  room: number,
): number[] | undefined {
  const widths = least.map((width, i) => Math.min(width, wanted[i] ?? width));
  let spare = room - widths.reduce((sum, width) => sum + width, 0);
  if (spare < 0) return undefined;
  while (spare > 0) {
    let next = -1;
    widths.forEach((width, i) => {
      if (width < (wanted[i] ?? 0) && (next < 0 || width < (widths[next] ?? 0))) next = i;
    });
    if (next < 0) break;
    widths[next] = (widths[next] ?? 0) + 1;
    spare -= 1;
  }
  return widths;
}
