import { afterAll, describe, expect, it } from 'vitest';
import { CAUTION, envelopes, FORMULAS, practiceFolder, put, removeFolders, run } from './scruple.ts';

afterAll(removeFolders);

function folderOf(files: Readonly<Record<string, string>>): string {
  const dir = practiceFolder();
  for (const [file, text] of Object.entries(files)) put(dir, file, text);
  return dir;
}

const one = (id: string, ingredients: string) => `formula: ${id}
title: ${id}
ingredients: ${ingredients}
preparation: {kind: infusion, herb: 2 g, water: 200 mL, strained: 200 mL, infuse: 10 min}
directions: {take: all of the pot, times: 3, for: 7 days}
`;

describe('scruple check --all', () => {
  it('tells of every shipped formula what it comes to, the gravest first, without a person', () => {
    const { code, out, err } = run(['check', '--all']);
    expect(err).toBe('');
    expect(code).toBe(3);
    expect(out).toContain('no person considered');
    expect(out.split(CAUTION)).toHaveLength(2);
    for (const id of FORMULAS) expect(out).toMatch(new RegExp(`^${id} +(decide|note|clear)\\b`, 'm'));
    const verdicts = [...out.matchAll(/^[a-z-]+ {2,}(withhold|ask|decide|note|clear)\b/gm)].map((m) => m[1]);
    const order = ['withhold', 'ask', 'decide', 'note', 'clear'];
    expect(verdicts.map((v) => order.indexOf(v ?? ''))).toEqual(
      verdicts.map((v) => order.indexOf(v ?? '')).sort((a, b) => a - b),
    );
    expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  });

  it('prints for a script the same as a check of each formula', () => {
    const each = envelopes(run(['check', '--all', '--json']));
    expect(each.map((e) => e.result.formulas[0])).toEqual(FORMULAS);
    const alone = envelopes(run(['check', 'stiff-joints', '--json']))[0];
    expect(each.find((e) => e.result.formulas[0] === 'stiff-joints')).toEqual(alone);
  });

  it('ends with the gravest of them, as a hook needs it', () => {
    const dir = folderOf({
      'formulas/too-much.yaml': one('too-much', '[{herb: willow-bark, parts: 1}]').replace('2 g', '9 g'),
    });
    const { code, out } = run(['check', '--all'], { cwd: dir });
    expect(code).toBe(5);
    expect(out.startsWith('Withhold')).toBe(true);
    expect(out).toMatch(/^too-much\n {2}WITHHOLD/m);
  });

  it('asks of a herb without a monograph', () => {
    const dir = folderOf({ 'formulas/strange.yaml': one('strange', '[{herb: moon-moss, parts: 1}]') });
    expect(run(['check', '--all'], { cwd: dir }).code).toBe(4);
  });

  it('tells every broken file before it judges any', () => {
    const dir = folderOf({
      'formulas/bad-one.yaml': one('bad-one', '[{herb: willow-bark, prats: 1}]'),
      'formulas/bad-two.yaml': one('bad-two', '[{herb: willow-bark, parts: -1}]'),
    });
    const { code, out, err } = run(['check', '--all'], { cwd: dir });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('formulas/bad-one.yaml:');
    expect(err).toContain('formulas/bad-two.yaml:');
  });

  it.each([
    [['check'], '--all for every formula'],
    [['check', '--all', 'stiff-joints'], 'leave out stiff-joints'],
    [['check', '--all', '--age', '4y'], 'without a person'],
    [['check', '--all', '--patient', 'x.yaml'], 'without a person'],
    [['check', '--all', '--output-dir', 'x'], 'without a person'],
  ])('%j is refused: %s', (args, why) => {
    const { code, out, err } = run(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(why);
  });
});
