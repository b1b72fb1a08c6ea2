/** What a result holds, or an error with everything that it says. */
export function must<T>(r: { readonly ok: true; readonly value: T } | { readonly ok: false }): T {
  if (!r.ok) throw new Error(JSON.stringify(r, null, 1));
  return r.value;
}
