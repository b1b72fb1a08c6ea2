import { describe, expect, it } from 'vitest';
import type { DrawnDose } from '../../src/dosing/equivalents.ts';
import { whyNotTheSame } from '../../src/dosing/solvent-fits.ts';
import type { PreparationDosed } from '../../src/folder/schema/monograph.ts';
import { given } from '../../src/measure/figure.ts';
import { parseRatio, parseSolventRatio, parseStrength } from '../../src/measure/parse.ts';
import { q, value } from '../compounding/formula.ts';

const ml = given(q('3 mL'), 'taken');
const ours = (ratio: string, spirit: string | null): DrawnDose => ({
  single: ml,
  daily: ml,
  weekly: ml,
  ratio: value(parseSolventRatio(ratio)),
  spirit: spirit === null ? null : value(parseStrength(spirit)),
});
const printed = (ratio?: string, solvent?: string): PreparationDosed => ({
  kind: ['tincture'],
  ...(ratio ? { ratio: value(parseRatio(ratio)) } : {}),
  ...(solvent ? { solvent } : {}),
});

describe('a dose in mL of a tincture', () => {
  it('speaks of one of the same ratio and spirit', () => {
    expect(whyNotTheSame(printed('1:5', 'ethanol 70 % v/v'), ours('1:5 w/v', '70 % v/v'))).toBeNull();
    expect(whyNotTheSame(printed('1:4.5-5', 'ethanol 70 % v/v'), ours('1:5 w/v', '70 % v/v'))).toBeNull();
    expect(whyNotTheSame(printed('1:5', 'ethanol 45-53 % v/v'), ours('2:10 w/v', '45 % v/v'))).toBeNull();
    expect(
      whyNotTheSame(printed('1:5', 'ethanol 45 %, basis not given'), ours('1:5 w/v', '45 % v/v')),
    ).toBeNull();
  });

  it.each([
    ['1:8', 'ethanol 60 % v/v', '1:5 w/v', '60 % v/v', 'it is for 1:8, and this is 1:5'],
    [
      '1:5',
      'ethanol 70 % v/v',
      '1:5 w/v',
      '45 % v/v',
      'it is drawn with ethanol 70 % v/v, and this with 45 % v/v',
    ],
    [
      '1:5',
      'ethanol 45 % m/m',
      '1:5 w/v',
      '45 % v/v',
      'it is drawn with ethanol 45 % m/m, and this with 45 % v/v',
    ],
    ['1:5', 'sweet wine', '1:5 w/v', '45 % v/v', 'it is drawn with sweet wine'],
  ])('and not of another: %s in %s', (ratio, solvent, own, spirit, says) => {
    expect(whyNotTheSame(printed(ratio, solvent), ours(own, spirit))).toBe(says);
  });

  it('of no stated ratio can be compared with none', () => {
    expect(whyNotTheSame(printed(undefined, 'ethanol 70 % v/v'), ours('1:5 w/v', '70 % v/v'))).toBe(
      'its source states no ratio',
    );
    expect(whyNotTheSame(printed('1:5'), null)).toBe('it counts the finished preparation, not the herb');
  });
});
