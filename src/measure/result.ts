/** What a person's input can come to: a value, or words that say what to write instead. */
export type Result<T, E = string> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: E };

export const ok = <T>(value: T): { ok: true; value: T } => ({ ok: true, value });
export const bad = <E>(why: E): { ok: false; why: E } => ({ ok: false, why });
