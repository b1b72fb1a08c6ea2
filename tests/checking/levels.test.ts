import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { EXIT, OUTCOMES, verdictOf } from '../../src/checking/level.ts';
import { RULES } from '../../src/checking/rules/index.ts';
import { readDocument } from '../../src/folder/read.ts';
import { SAYINGS } from '../../src/folder/sayings.ts';
import { judge, WELL, WOMAN } from './judge.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

const table = await readDocument('levels', join(ROOT, 'monographs/reference/levels.yaml'), 'levels.yaml');
if (!table.ok) throw new Error('the table of levels does not read');
const { sayings, outcomes } = table.value.value;

const sources = (dir: string): string[] =>
  readdirSync(dir, { withFileTypes: true }).flatMap((f) =>
    f.isDirectory() ? sources(join(dir, f.name)) : [readFileSync(join(dir, f.name), 'utf8')],
  );

/** The same facts with every key of every mapping in the opposite order. */
function reordered(text: string): string {
  const turn = (v: unknown): unknown => {
    if (Array.isArray(v)) return v.map(turn);
    if (typeof v !== 'object' || v === null) return v;
    return Object.fromEntries(
      Object.entries(v)
        .reverse()
        .map(([k, x]) => [k, turn(x)]),
    );
  };
  return stringify(turn(parse(text)));
}

it('every word that a source may say has its level in the one table', () => {
  expect(sayings.map((s) => s.says).sort()).toEqual([...SAYINGS].sort());
});

it('every outcome of the table is one that some rule comes to', () => {
  // The list of outcomes in level.ts names them all, so only the rules themselves count.
  const code = sources(join(ROOT, 'src/checking/rules')).join('\n');
  expect(outcomes.map((o) => o.outcome).filter((o) => !code.includes(`'${o}'`))).toEqual([]);
});

it('every outcome that a rule comes to is in the table, and every saying of a monograph too', () => {
  const code = sources(join(ROOT, 'src/checking')).join('\n');
  const used = [...code.matchAll(/(?:ofOutcome|judged)\(([^()]*)\)/g)].flatMap(([, inside = '']) =>
    [...inside.matchAll(/'([a-z-]+)'/g)].map(([, outcome]) => outcome),
  );
  expect(used.length).toBeGreaterThan(10);
  expect(outcomes.map((o) => o.outcome)).toEqual(expect.arrayContaining(used));
  expect(outcomes.map((o) => o.outcome).sort()).toEqual([...OUTCOMES].sort());
  const herbs = readdirSync(join(ROOT, 'monographs')).filter((f) => f.endsWith('.yaml'));
  const text = herbs.map((f) => readFileSync(join(ROOT, 'monographs', f), 'utf8')).join('\n');
  const said = [...text.matchAll(/when:[\s\S]*?says: ([a-z-]+)/g)].map(([, word]) => word);
  expect(said.length).toBeGreaterThan(50);
  expect(sayings.map((s) => s.says)).toEqual(expect.arrayContaining(said));
});

it('a rule takes level and accept together from the table, so that accept: no is heeded in every line', () => {
  const rules = sources(join(ROOT, 'src/checking/rules')).join('\n');
  expect(rules.match(/\.\.\.c\.levels\.judged\(/g)?.length).toBeGreaterThan(10);
  // Instead of `level: c.levels.ofOutcome(x)` a finding takes `...c.levels.judged(x)`.
  expect(rules.match(/level: (c\.)?levels\.ofOutcome\(.*/g)).toBeNull();
});

it('no rule carries a level of its own', () => {
  const rules = sources(join(ROOT, 'src/checking/rules')).join('\n');
  expect(rules.match(/level: '(withhold|ask|decide|note)'/g)).toBeNull();
});

it('the highest exit status wins', () => {
  expect(EXIT).toEqual({ clear: 0, note: 0, decide: 3, ask: 4, withhold: 5 });
  expect(verdictOf(['note', 'decide', 'ask'])).toBe('ask');
  expect(verdictOf(['decide', 'withhold', 'ask'])).toBe('withhold');
  expect(verdictOf([])).toBe('clear');
});

it('every rule says what it looks for, when it fires and when it is quiet', () => {
  for (const r of RULES)
    expect(
      [r.sentence, r.fires, r.quiet].every((t) => t.length > 10),
      r.name,
    ).toBe(true);
  expect(new Set(RULES.map((r) => r.name)).size).toBe(RULES.length);
});

it('ids are one of a kind within a check', async () => {
  const person = {
    ...WOMAN,
    pregnant: '30 weeks',
    medicines: '[warfarin, aspirin, lithium carbonate]',
    allergies: '[aspirin, birch pollen]',
    conditions: '[asthma, heart failure]',
  };
  for (const formula of ['stiff-joints', 'winter-chest', 'quiet-evening']) {
    const ids = (await judge({ formula, person })).findings.map((f) => f.id);
    expect(new Set(ids).size).toBe(ids.length);
  }
});

it('the basis of a finding changes with its facts, and not with a comment or the order of keys', async () => {
  const willow = readFileSync(join(ROOT, 'monographs/willow-bark.yaml'), 'utf8');
  const basis = async (text: string) => {
    const c = await judge({
      formula: 'stiff-joints',
      person: { ...WELL, conditions: '[G6PD deficiency]' },
      files: { 'monographs/willow-bark.yaml': text },
    });
    const found = c.findings.find((f) => f.rule === 'caution' && f.herb === 'willow-bark');
    return [found?.id, found?.basis];
  };
  const [id, before] = await basis(willow);
  expect(before).toMatch(/^[0-9a-f]{12}$/);
  expect(await basis(`# a remark\n${willow}\n# another, with a comma\n`)).toEqual([id, before]);
  const turned = reordered(willow);
  expect(turned).not.toBe(willow);
  expect(await basis(turned)).toEqual([id, before]);
  const said = willow.replace(
    'why: glucose-6-phosphate dehydrogenase deficiency',
    'why: a deficiency of this enzyme',
  );
  expect(said).not.toBe(willow);
  const [sameId, after] = await basis(said);
  expect(sameId).toBe(id);
  expect(after).not.toBe(before);
});

it('no finding of anything changes its basis with the order of keys in the monographs', async () => {
  const ingredients = ['willow-bark', 'meadowsweet-herb'];
  const files = Object.fromEntries(
    ingredients.map((h) => {
      const file = `monographs/${h}.yaml`;
      return [file, reordered(readFileSync(join(ROOT, file), 'utf8'))];
    }),
  );
  const person = {
    ...WOMAN,
    pregnant: '30 weeks',
    medicines: '[warfarin, aspirin]',
    allergies: '[aspirin]',
    conditions: '[asthma]',
  };
  const bases = async (own: Readonly<Record<string, string>>) =>
    (await judge({ formula: 'stiff-joints', person, files: own })).findings.map((f) => `${f.id} ${f.basis}`);
  const before = await bases({});
  expect(before.length).toBeGreaterThan(5);
  expect(await bases(files)).toEqual(before);
});
