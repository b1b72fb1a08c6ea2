const RANK = /^(?:subsp\.|ssp\.|var\.|f\.)$/;
/** No shorter: authors are joined by `ex`, `et`, `in`. */
const EPITHET = /^[a-z][a-z-]{2,}$/;
const HYBRID = /^[x\u00d7]$/;

/** One plant part may come from several species: `Salix purpurea L., Salix daphnoides Vill. and other Salix species`. */
const NEXT_SPECIES = /(?:,|,? or|,? and)\s+(?=\p{Lu}[\p{Ll}-]+ (?:[x\u00d7] )?\p{Ll}{3})/u;

/**
 * The forms in which a Latin name is met: as printed; of each species in it, the whole without its authors
 * (`Foeniculum vulgare subsp. vulgare var. dulce`) and the species alone (`Foeniculum vulgare`).
 */
export function latinForms(printed: string): string[] {
  const species = printed.split(NEXT_SPECIES).map((s) => s.trim());
  return [...new Set([printed, ...species.flatMap((s) => [s, ...withoutAuthors(s)])])];
}

/** After the species, a lower-case word belongs to the name only behind its rank; authors have such words too. */
function withoutAuthors(species: string): string[] {
  const [genus = '', ...words] = species.split(/\s+/);
  const name = [genus];
  while (words[0] !== undefined && (HYBRID.test(words[0]) || (EPITHET.test(words[0]) && !isNamed(name))))
    name.push(words.shift() ?? '');
  const alone = name.join(' ');
  words.forEach((word, i) => {
    const next = words[i + 1];
    if (RANK.test(word) && next !== undefined && EPITHET.test(next)) name.push(word, next);
  });
  return [name.join(' '), alone];
}

/** True once the species epithet has been read. */
const isNamed = (name: readonly string[]): boolean => name.slice(1).some((word) => !HYBRID.test(word));
