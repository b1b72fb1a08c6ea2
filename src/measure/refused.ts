import { unitKey } from './units.ts';

/** Names and signs that are refused outright, with what to write instead. */
export function refusedUnit(name: string): string | undefined {
  if (name === 'T' || name === 't') return `"${name}" may be a tablespoon or a teaspoon: write tbsp or tsp`;
  switch (unitKey(name)) {
    case 'gr':
    case 'grs':
      return '"gr" may be a grain (65 mg) or a gram: write grain or g';
    case 'cc':
    case 'ccs':
    case 'c.c':
    case 'ccm':
    case 'cm3':
    case 'cm\u00b3':
      return `"${name}" is misread as a unit or as zeros: write mL`;
    case 'stone':
    case 'stones':
      return 'a stone is not used for weighing medicines: write kg';
    // ezh serves as the drachm sign; its capital has the same lower case.
    case '\u0292':
    case '\u2125':
    case '\u2108':
    case '\u2114':
    case '\u2112':
    case '\u2133':
      return `the apothecary sign ${name} is easily misread: write the word (drachm ap, oz ap, scruple, lb ap) or g`;
    case 'iu':
    case 'u':
      return `"${name}" is misread as a figure, and herbs are not dosed in units: write g, mg or mL`;
    default:
      return undefined;
  }
}
