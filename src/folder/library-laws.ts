import type { AgeBand } from '../measure/age.ts';
import { rangeJson } from '../measure/write.ts';
import type { Path } from './positions.ts';
import type { DoseEntry, Monograph } from './schema/monograph.ts';

/** What must hold within a monograph beyond the shape of its file: figures that contradict each other by a slip. */

interface Missing {
  readonly path: Path;
  readonly message: string;
}

export function libraryFaults(m: Monograph): Missing[] {
  return [...latinFaults(m), ...bandFaults(m), ...seasonFaults(m)];
}

/** `Urtica dioica L.`: genus, species, and who named it. */
function latinFaults({ names: { latin } }: Monograph): Missing[] {
  const [genus = '', species = '', ...author] = latin.split(' ');
  const named = /^[A-Z]/.test(genus) && species !== '' && author.length > 0;
  return named
    ? []
    : [{ path: ['names', 'latin'], message: `"${latin}" lacks its author: write such as Urtica dioica L.` }];
}

const FIGURES = ['single', 'daily', 'weekly', 'concentration'] as const;

/** Doses of one source for one use, preparation and route: where their ages meet, their figures must be alike or explained. */
function bandFaults(m: Monograph): Missing[] {
  if (m.doses === 'none-read') return [];
  const doses = m.doses;
  const subjects = doses.map(subjectOf);
  return doses.flatMap((b, j) =>
    doses.slice(0, j).flatMap((a, i): Missing[] => {
      if (subjects[i] !== subjects[j] || !overlap(a.ages, b.ages)) return [];
      if (a.note !== undefined || b.note !== undefined || a.limit !== b.limit) return [];
      const unlike = FIGURES.filter((k) => a[k] && b[k] && !same(a[k], b[k]));
      return unlike.length === 0
        ? []
        : [
            {
              path: ['doses', j],
              message: `its ages meet those of dose ${i + 1} of the same source, use and preparation, and ${unlike.join(' and ')} differ: correct one, or say why in a note`,
            },
          ];
    }),
  );
}

const same = (a: DoseEntry['single'], b: DoseEntry['single']): boolean =>
  a !== undefined && b !== undefined && JSON.stringify(rangeJson(a)) === JSON.stringify(rangeJson(b));

const subjectOf = (e: DoseEntry): string =>
  JSON.stringify([e.source, e.use, e.preparation, e.route, e.of ?? 'herb', e.when_taken]);

/** Two bands that hold some age in common; an entry without ages says nothing of any. */
function overlap(a: AgeBand | undefined, b: AgeBand | undefined): boolean {
  if (a === undefined || b === undefined) return false;
  const from = (x: AgeBand): number => x.from?.months ?? 0;
  const under = (x: AgeBand): number => x.under?.months ?? Number.POSITIVE_INFINITY;
  return from(a) < under(b) && from(b) < under(a);
}

/** `months` is every month that any season names. */
function seasonFaults({ gather }: Monograph): Missing[] {
  const all = new Set(gather?.months ?? []);
  return (gather?.seasons ?? []).flatMap((s, i): Missing[] => {
    const lost = s.months.filter((n) => !all.has(n));
    return lost.length === 0
      ? []
      : [
          {
            path: ['gather', 'seasons', i],
            message: `month ${lost.join(', ')} is not among the months above: add it there`,
          },
        ];
  });
}
