import { describe, expect, it } from 'vitest';
import { LEVELS } from '../../src/checking/level.ts';
import { RULES } from '../../src/checking/rules/index.ts';
import { judge, WELL, WOMAN } from './judge.ts';
import { herb, tea } from './small.ts';

const FULL = {
  ...WOMAN,
  pregnant: '30 weeks',
  medicines: '[warfarin, digoxin, furosemide]',
  conditions: '[asthma, heart failure]',
  allergies: '[aspirin, ragweed]',
  taking: '[senna-leaf]',
};

describe('a check', () => {
  it('puts the gravest first, then goes by herb and id', async () => {
    const { findings } = await judge({
      formula: ['winter-chest', 'stiff-joints', 'after-supper'],
      person: FULL,
    });
    const keys = findings.map((f) => [LEVELS.indexOf(f.level), f.herb ?? '', f.id] as const);
    const sorted = [...keys].sort(
      (a, b) => a[0] - b[0] || (a[1] < b[1] ? -1 : a[1] > b[1] ? 1 : 0) || (a[2] < b[2] ? -1 : 1),
    );
    expect(keys).toEqual(sorted);
    expect(new Set(findings.map((f) => f.level))).toEqual(new Set(LEVELS));
  });

  it('comes to the same whatever the order of formulas, ingredients and answers', async () => {
    const one = await judge({ formula: ['winter-chest', 'stiff-joints'], person: FULL });
    const turned = Object.fromEntries(
      Object.entries(FULL)
        .reverse()
        .map(([k, v]) => [k, v.startsWith('[') ? `[${v.slice(1, -1).split(', ').reverse().join(', ')}]` : v]),
    );
    expect(await judge({ formula: ['stiff-joints', 'winter-chest'], person: turned })).toEqual(one);
  });

  it('of the same formula twice finds nothing twice', async () => {
    const once = await judge({ formula: 'stiff-joints', person: FULL });
    const twice = await judge({ formula: ['stiff-joints', 'stiff-joints'], person: FULL });
    expect(twice).toEqual(once);
  });

  it('keeps the graver of what two formulas come to for one herb', async () => {
    // Barred as a powder from 12 years and as a tea from 4, each by the one source: eight years are under one of them.
    const files = {
      ...herb({
        ages: '[{not_under: 4 years, preparation: infusion, because: x, source: a}, {not_under: 12 years, preparation: powder, because: x, source: a}]',
      }),
      ...tea(),
      ...tea(
        { preparation: '{kind: powder}', directions: '{take: 1 g, times: 3, for: 5 days}' },
        'test-powder',
      ),
    };
    const child = { ...WELL, born: '2018-01-01' };
    const of = async (formula: string | string[]) =>
      (await judge({ formula, person: child, files })).findings
        .filter((f) => f.rule === 'age-floor')
        .map((f) => f.level);
    expect(await of('test-tea')).toEqual([]);
    expect(await of('test-powder')).toEqual(['withhold']);
    expect(await of(['test-tea', 'test-powder'])).toEqual(['withhold']);
  });

  it('is clear where nothing was found, and that is said by no finding', async () => {
    expect(await judge({ formula: 'test-tea', person: WELL, files: { ...herb(), ...tea() } })).toEqual({
      verdict: 'clear',
      findings: [],
    });
  });

  it('runs without a person, and asks nobody anything', async () => {
    const c = await judge({ formula: 'stiff-joints', person: null });
    expect(c.findings.map((f) => f.rule)).not.toContain('unanswered');
    expect(c.findings.map((f) => f.rule)).not.toContain('age-floor');
  });

  it('runs for a person of whom nothing is known, and asks', async () => {
    const c = await judge({ formula: 'stiff-joints', person: { patient: 'T-1', asked: '2026-05-02' } });
    expect(c.verdict).toBe('ask');
    expect(c.findings.filter((f) => f.rule === 'unanswered').map((f) => f.id.split('/')[2])).toEqual([
      'age',
      'allergies',
      'breastfeeding',
      'conditions',
      'medicines',
      'pregnant',
      // Willow makes bleeding likelier.
      'surgery',
    ]);
  });

  it('carries the source and its reading wherever it speaks for one', async () => {
    const { findings } = await judge({ formula: ['winter-chest', 'stiff-joints'], person: FULL });
    for (const f of findings.filter((x) => ['caution', 'stage', 'dose', 'course'].includes(x.rule)))
      expect([f.id, f.reading]).toEqual([f.id, f.source?.reading]);
  });
});

it('every rule has a file of its own name and a test of it', async () => {
  const { existsSync } = await import('node:fs');
  for (const { name } of RULES) {
    expect(existsSync(new URL(`../../src/checking/rules/${name}.ts`, import.meta.url)), name).toBe(true);
    expect(existsSync(new URL(`./${name}.test.ts`, import.meta.url)), name).toBe(true);
  }
});
