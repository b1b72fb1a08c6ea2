import type { Cited } from '../figure.ts';

/** The formula and its 54 coefficients. The official file is a scan, read through transcriptions that agree. */
export const OIML_R22: Cited = {
  key: 'oiml-r22',
  body: 'International Organization of Legal Metrology',
  title: 'International Alcoholometric Tables',
  ref: 'OIML R 22',
  year: '1975',
  reading: 'restated',
};

/** The same formula in law, with the two definitions of strength. Repealed by Directive 2011/17/EU from 1 December 2015. */
export const DIRECTIVE_76_766: Cited = {
  key: 'eec-76-766',
  body: 'Council of the European Communities',
  title: 'Council Directive on the approximation of the laws of the Member States relating to alcohol tables',
  ref: '76/766/EEC, OJ L 262, 27.9.1976, p 149-152',
  year: '1976',
  reading: 'original',
};

/** A: kg/m3 at 20 C; the n-th belongs to p to the power n, counted from 0. */
// biome-ignore format: a table
export const AT_20_DEGREES: readonly string[] = [
  '998.20123', '-192.9769495', '389.1238958', '-1668.103923', '13522.15441', '-88292.78388',
  '306287.4042', '-613838.1234', '747017.2998', '-547846.1354', '223446.0334', '-39032.85426',
];

/** B: kg/m3 per degree to the power k, for water; the first belongs to (t - 20), the next to its square. */
// biome-ignore format: a table
export const OF_WATER: readonly string[] = [
  '-0.20618513', '-5.2682542e-3', '3.6130013e-5', '-3.8957702e-7', '7.169354e-9', '-9.9739231e-11',
];

/** C: kg/m3 per degree to the power i. One row for each power i of (t - 20); the first in a row belongs to p, the next to p squared. */
// biome-ignore format: a table
export const OF_MIXTURES: readonly (readonly string[])[] = [
  [
    '0.1693443461530087', '-10.46914743455169', '71.96353469546523', '-704.7478054272792',
    '3924.090430035045', '-12101.64659068747', '22486.46550400788', '-26055.62982188164',
    '18523.73922069467', '-7420.201433430137', '1285.617841998974',
  ],
  [
    '-0.0119301300505701', '0.2517399633803461', '-2.170575700536993', '13.53034988843029',
    '-50.29988758547014', '109.635566657757', '-142.2753946421155', '108.043594285623',
    '-44.14153236817392', '7.442971530188783',
  ],
  [
    '-6.802995733503803e-4', '1.876837790289664e-2', '-0.2002561813734156', '1.02299296671922',
    '-2.895696483903638', '4.810060584300675', '-4.672147440794683', '2.458043105903461',
    '-0.5411227621436812',
  ],
  [
    '4.075376675622027e-6', '-8.76305857347111e-6', '6.515031360099368e-6', '-1.51578483698721e-6',
  ],
  [
    '-2.788074354782409e-8', '1.345612883493354e-8',
  ],
];
