import { citeIn } from '../../folder/cite-in.ts';
import { any, type Ternary } from '../../measure/age.ts';
import type { Case, Rule } from '../case.ts';
import { cautionsWeighed } from '../cautions.ts';
import { type Acting, acting, isAmong } from '../effects.ts';
import { type Finding, finding } from '../finding.ts';
import type { Level } from '../level.ts';
import { sharesTaken } from '../shares.ts';
import { stoppedAmong } from '../when.ts';

export const additiveEffect: Rule = {
  name: 'additive-effect',
  sentence: 'Herbs that do the same as each other, or as a medicine, add up.',
  fires: 'hops for someone on diazepam: both bring drowsiness',
  quiet: 'hops for someone on paracetamol',
  find: (c: Case): Finding[] => {
    const all = acting(c);
    return all
      .filter((a) => a.given)
      .flatMap((a) => [...together(a, all, c), ...besideOtherEffects(a, all, c), ...besideMedicines(a, c)]);
  },
};

type Said = Readonly<NonNullable<Acting['effect']['together']>>;

const list = (herbs: readonly string[]): string =>
  herbs.length < 2 ? herbs.join('') : `${herbs.slice(0, -1).join(', ')} and ${herbs[herbs.length - 1]}`;

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
        `each of ${list(herbs)} ${a.effect.does}: ${said.why}`,
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

/** One finding a medicine; where several lines speak of it, the gravest. What the herb's own monograph notes of it is not noted again. */
function besideMedicines(a: Acting, c: Case): Finding[] {
  const medicines = c.person?.medicines.given ? c.person.medicines.value : [];
  return medicines
    .filter((m) => m.item.herbGenus === undefined)
    .flatMap((m) => {
      const lines = (a.effect.with ?? [])
        .filter((w) => isAmong(a, w.latin))
        .map((w) => ({ w, holds: any(w.medicine.map((t) => c.matching.medicine(m.item, t))) }));
      const found = lines.find((l) => l.holds === true) ?? lines.find((l) => l.holds === 'unknown');
      const level = found && c.levels.ofSaying(found.w.says);
      if (!found || !level) return [];
      const { w, holds } = found;
      if (isSaidAnyway(a, m.name, level, holds, c)) return [];
      const sure = holds === true;
      return [
        finding({
          rule: 'additive-effect',
          herb: a.herb,
          subject: `${sure ? '' : 'possible '}${a.effect.id} with ${m.name}`,
          ...(sure || level === 'note'
            ? { level, accept: c.levels.mayAccept(w.says) }
            : c.levels.judged('too-coarse')),
          say: [
            sure
              ? `${a.herb} ${a.effect.does}; beside ${m.said}: ${w.why}`
              : `${a.herb} ${a.effect.does}; beside some of what "${m.word}" may mean: ${w.why}; which medicine is it?`,
          ],
          source: a.cited ?? citeIn(c.effects, w),
          facts: {
            effect: a.effect.id,
            medicine: m.name,
            says: w.says,
            holds,
            group: w.medicine,
            stopped: stoppedAmong([{ key: 'medicine', ...m }]),
          },
        }),
      ];
    });
}

/** A note that the monograph has of this medicine too, and a question that one of its cautions asks of the same word. */
function isSaidAnyway(a: Acting, medicine: string, level: Level, holds: Ternary, c: Case): boolean {
  if (holds === true && level !== 'note') return false;
  return cautionsWeighed(c).some(
    (w) => w.herb.herb === a.herb && w.met.holds === holds && w.met.names.some((n) => n.name === medicine),
  );
}
