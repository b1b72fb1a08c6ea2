/** Puts a value under a key of a plain map; `__proto__`, a name of the language, is a key like any other. */
export function putKey<V>(map: Record<string, V>, key: string, value: V): void {
  if (key === '__proto__')
    Object.defineProperty(map, key, { value, enumerable: true, configurable: true, writable: true });
  else map[key] = value;
}
