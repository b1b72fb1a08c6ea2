import { citeIn } from '../../folder/cite-in.ts';
import { any, type Ternary } from '../../measure/age.ts';
import type { TakenMedicine } from '../../vocabulary/medicines.ts';
import type { Case, Rule } from '../case.ts';
import { cautionsWeighed } from '../cautions.ts';
import { type Acting, acting, isAmong } from '../effects.ts';
import { type Finding, finding } from '../finding.ts';
import { LEVELS, type Level } from '../level.ts';
import type { Stated } from '../person.ts';
import { inWords } from '../phrases.ts';
import { sharesTaken } from '../shares.ts';
import { stoppedAmong } from '../when.ts';

export const additiveEffect: Rule = {
  name: 'additive-effect',
  sentence: 'Herbs that do the same as each other, or as a medicine, add up.',
  fires: 'hops for someone on diazepam: both bring drowsiness',
  quiet: 'hops for someone on paracetamol',
  find: (c: Case): Finding[] => {
    const all = acting(c);
    const herbs = [...new Set(all.filter((a) => a.given).map((a) => a.herb))];
    return [
      ...all
        .filter((a) => a.given)
        .flatMap((a) => [...together(a, all, c), ...besideOtherEffects(a, all, c)]),
      ...herbs.flatMap((herb) =>
        besideMedicines(
          all.filter((a) => a.herb === herb),
          c,
        ),
      ),
    ];
  },
};

type Said = Readonly<NonNullable<Acting['effect']['together']>>;

/** Two or more herbs of one group. Of herbs that each have a maximum, the shares of it are added up. */
function together(a: Acting, all: readonly Acting[], c: Case): Finding[] {
  const said = a.effect.together;
  const herbs = [...new Set(all.filter((b) => b.effect.id === a.effect.id).map((b) => b.herb))].sort();
  const level = said && c.levels.ofSaying(said.says);
  if (!said || !level || herbs.length < 2) return [];
  const shares = sharesTaken(herbs, c);
  const above = shares?.sum.value.value.gt(100) ?? false;
  const judged =
    above && shares?.safety
      ? c.levels.judged('above-in-proportion')
      : { level, accept: c.levels.mayAccept(said.says) };
  const proportion = citeIn(c.effects, c.effects.proportional);
  return [
    finding({
      rule: 'additive-effect',
      herb: a.herb,
      subject: `${a.effect.id} together`,
      ...judged,
      say: [
        `each of ${inWords(herbs)} ${a.effect.does}: ${said.why}`,
        ...(shares ? ['; as shares of their highest published amounts a day they come to', shares.sum] : []),
        ...(above ? [`and ${proportion.body} lets such shares come to 100 % in all`] : []),
      ],
      figures: shares ? [shares.sum] : [],
      source: above ? proportion : citeIn(c.effects, said),
      facts: { effect: a.effect.id, herbs, says: said.says, sum: shares?.sum.value ?? null },
    }),
  ];
}

function besideOtherEffects(a: Acting, all: readonly Acting[], c: Case): Finding[] {
  // Said by whichever of the two is handed over; where both are, by the one whose group speaks of the other.
  const pairs = all.flatMap((b): { readonly of: Acting; readonly other: Acting; readonly said: Said }[] => [
    ...relations(a, b).map((said) => ({ of: a, other: b, said })),
    ...(b.given ? [] : relations(b, a).map((said) => ({ of: b, other: a, said }))),
  ]);
  return pairs.flatMap(({ of, other, said }) => {
    const level = c.levels.ofSaying(said.says);
    if (!level) return [];
    return [
      finding({
        rule: 'additive-effect',
        herb: a.herb,
        subject: `${of.effect.id} beside ${of === a ? other.herb : of.herb}`,
        level,
        accept: c.levels.mayAccept(said.says),
        say: [`${of.herb} ${of.effect.does}, and ${other.herb} ${other.effect.does}: ${said.why}`],
        source: citeIn(c.effects, said),
        facts: { of: of.herb, other: other.herb, effect: of.effect.id, says: said.says },
      }),
    ];
  });
}

function relations(a: Acting, b: Acting): readonly Said[] {
  if (a.herb === b.herb) return [];
  return (a.effect.with_effects ?? []).filter((w) => w.effect === b.effect.id && isAmong(b, w.latin));
}

/** What a herb does that a medicine does too, and the line of the table that says so. */
interface Met {
  readonly acting: Acting;
  readonly said: NonNullable<Acting['effect']['with']>[number];
  readonly holds: Ternary;
  readonly level: Level;
}

/** One finding a herb and medicine, however much they do alike. What the herb's own monograph notes of it is not noted again. */
function besideMedicines(all: readonly Acting[], c: Case): Finding[] {
  const medicines = c.person?.medicines.given ? c.person.medicines.value : [];
  return medicines
    .filter((m) => m.item.herbGenus === undefined)
    .flatMap((m) => {
      const met = all
        .flatMap((a) => metWith(a, m, c))
        .filter((x) => !isSaidAnyway(x.acting, m.name, x.level, x.holds, c));
      const certain = met.filter((x) => x.holds === true);
      const byGravity = [...(certain.length > 0 ? certain : met)].sort(
        (a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level),
      );
      const [first] = byGravity;
      if (!first) return [];
      const { acting: a, said, level } = first;
      const sure = first.holds === true;
      const does = inWords(byGravity.map((x) => x.acting.effect.does));
      const why = [...new Set(byGravity.map((x) => x.said.why))].join('; ');
      return [
        finding({
          rule: 'additive-effect',
          herb: a.herb,
          subject: `${sure ? '' : 'possible '}${m.name}`,
          ...(sure || level === 'note'
            ? { level, accept: c.levels.mayAccept(said.says) }
            : c.levels.judged('too-coarse')),
          say: [
            sure
              ? `${a.herb} ${does}; beside ${m.said}: ${why}`
              : `${a.herb} ${does}; beside some of what "${m.word}" may mean: ${why}; which medicine is it?`,
          ],
          source: a.cited ?? citeIn(c.effects, said),
          facts: {
            medicine: m.name,
            met: byGravity.map((x) => [x.acting.effect.id, x.said.says, x.holds, x.said.medicine]),
            stopped: stoppedAmong([{ key: 'medicine', ...m }]),
          },
        }),
      ];
    });
}

function metWith(a: Acting, m: Stated<TakenMedicine>, c: Case): Met[] {
  const lines = (a.effect.with ?? [])
    .filter((w) => isAmong(a, w.latin))
    .map((said) => ({ said, holds: any(said.medicine.map((t) => c.matching.medicine(m.item, t))) }));
  const found = lines.find((l) => l.holds === true) ?? lines.find((l) => l.holds === 'unknown');
  const level = found && c.levels.ofSaying(found.said.says);
  return found && level ? [{ acting: a, ...found, level }] : [];
}

/** A note that the monograph has of this medicine too, and a question that one of its cautions asks of the same word. */
function isSaidAnyway(a: Acting, medicine: string, level: Level, holds: Ternary, c: Case): boolean {
  if (holds === true && level !== 'note') return false;
  return cautionsWeighed(c).some(
    (w) => w.herb.herb === a.herb && w.met.holds === holds && w.met.names.some((n) => n.name === medicine),
  );
}
