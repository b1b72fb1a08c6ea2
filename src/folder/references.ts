import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { nearest } from '../measure/nearest.ts';
import type { Folder } from './folder.ts';
import { ownQuestion } from './own-questions.ts';
import type { Path } from './positions.ts';
import type { Problem } from './problem.ts';
import type { AdditiveEffects } from './schema/additive-effects.ts';
import type { Formula } from './schema/formula.ts';
import type { Monograph } from './schema/monograph.ts';

/** What words of one file must be found in another: herbs in monographs, uses and the words of cautions in the shared tables. */
export interface Known {
  readonly vehicles?: readonly string[];
  readonly herbs: readonly string[];
  readonly uses: readonly string[];
  /** What herbs do alike, by the ids of the table of effects. */
  readonly effects: readonly string[];
  readonly medicine: (target: string) => boolean;
  readonly condition: (target: string) => boolean;
  readonly allergy: (target: string) => boolean;
}

interface Missing {
  readonly path: Path;
  readonly message: string;
}

export function missingInFormula(f: Formula, known: Known): Missing[] {
  const herbs = f.ingredients.flatMap(({ herb }, i): Missing[] =>
    herb === undefined || known.herbs.includes(herb)
      ? []
      : [
          {
            path: ['ingredients', i, 'herb'],
            message: `there is no monograph "${herb}"${didYouMean(herb, known.herbs)}`,
          },
        ],
  );
  return [...herbs, ...missingVehicles(f, known), ...missingUse(f.use, ['use'], known)];
}

/** What carries the herbs, in the ingredients and in the preparation; not looked at where the table was not read. */
function missingVehicles({ ingredients, preparation: p }: Formula, { vehicles }: Known): Missing[] {
  if (vehicles === undefined) return [];
  const named: [string | undefined, Path][] = [
    ...ingredients.map((i, n): [string | undefined, Path] => [i.vehicle, ['ingredients', n, 'vehicle']]),
    ['oil' in p ? p.oil : undefined, ['preparation', 'oil']],
    ['base' in p ? p.base : undefined, ['preparation', 'base']],
  ];
  return named.flatMap(([id, path]) =>
    id === undefined || vehicles.includes(id)
      ? []
      : [{ path, message: `"${id}" is not among the vehicles${didYouMean(id, vehicles)}` }],
  );
}

export function missingInMonograph(m: Monograph, known: Known): Missing[] {
  const uses =
    m.doses === 'none-read'
      ? []
      : m.doses.flatMap((d, i) => (d.use ?? []).flatMap((u) => missingUse(u, ['doses', i, 'use'], known)));
  const cautions = (m.cautions ?? []).flatMap(({ when, use }, i): Missing[] => {
    const words = (
      list: readonly string[] | undefined,
      kind: 'medicine' | 'condition' | 'allergy',
    ): Missing[] =>
      (list ?? [])
        .filter((t) => !known[kind](t))
        .map((t) => ({
          path: ['cautions', i, 'when', kind],
          message: `"${t}" is no ${kind} of the shared tables, so this caution would never be found`,
        }));
    const taking = (when.taking ?? [])
      .filter((h) => !known.herbs.includes(h))
      .map(
        (h): Missing => ({
          path: ['cautions', i, 'when', 'taking'],
          message: `there is no monograph "${h}"${didYouMean(h, known.herbs)}`,
        }),
      );
    return [
      ...words(when.medicine, 'medicine'),
      ...words(when.condition, 'condition'),
      ...(when.condition ?? []).flatMap((t): Missing[] => {
        const instead = ownQuestion(t);
        if (instead === undefined) return [];
        const message = `"${t}" is a question of its own and never stands among the conditions: write ${instead}`;
        return [{ path: ['cautions', i, 'when', 'condition'], message }];
      }),
      ...words(when.allergy, 'allergy'),
      ...taking,
      ...(use ?? []).flatMap((u) => missingUse(u, ['cautions', i, 'use'], known)),
    ];
  });
  const floors = (m.ages ?? []).flatMap((a, i) =>
    (a.use ?? []).flatMap((u) => missingUse(u, ['ages', i, 'use'], known)),
  );
  const effects = (m.effects ?? []).flatMap((e, i): Missing[] =>
    known.effects.includes(e)
      ? []
      : [
          {
            path: ['effects', i],
            message: `"${e}" is not among the effects (monographs/reference/additive-effects.yaml)${didYouMean(e, known.effects)}`,
          },
        ],
  );
  return [...uses, ...cautions, ...floors, ...effects];
}

/** Medicines and other effects that a line of the table of effects speaks of: one that is not known would never be found. */
export function missingInEffects({ effects }: AdditiveEffects, known: Pick<Known, 'medicine'>): Missing[] {
  const ids = effects.map((e) => e.id);
  return effects.flatMap((e, i) => [
    ...(e.with ?? []).flatMap((w, k) =>
      w.medicine
        .filter((t) => !known.medicine(t))
        .map(
          (t): Missing => ({
            path: ['effects', i, 'with', k, 'medicine'],
            message: `"${t}" is no medicine of the shared tables, so this line would never be found`,
          }),
        ),
    ),
    ...(e.with_effects ?? [])
      .map((w, k) => ({ w, k }))
      .filter(({ w }) => !ids.includes(w.effect))
      .map(
        ({ w, k }): Missing => ({
          path: ['effects', i, 'with_effects', k, 'effect'],
          message: `"${w.effect}" is not among the effects${didYouMean(w.effect, ids)}`,
        }),
      ),
  ]);
}

function missingUse(use: string | undefined, path: Path, known: Known): Missing[] {
  if (use === undefined || known.uses.includes(use)) return [];
  return [
    {
      path,
      message: `"${use}" is not in the list of uses (monographs/reference/uses.yaml)${didYouMean(use, known.uses)}`,
    },
  ];
}

function didYouMean(word: string, among: readonly string[]): string {
  const near = nearest(word, among);
  return near.length > 0 ? `: did you mean ${near.join(' or ')}?` : '';
}

/** The missing words as problems at their places; the file is parsed again only where something is missing. */
export async function placed(folder: Folder, file: string, missing: readonly Missing[]): Promise<Problem[]> {
  if (missing.length === 0) return [];
  const { placesIn } = await import('./validate-text.ts');
  const text = readFileSync(join(folder.root, file), 'utf8');
  const places = placesIn(
    text,
    file,
    missing.map((m) => m.path),
  );
  return missing.map(({ message }, i) => ({ code: 'unknown-reference', file, message, ...places[i] }));
}
