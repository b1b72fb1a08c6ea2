import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judgePatient } from './judge.ts';

/**
 * Every patient of Saltmarsh House against every formula on 2 May 2026. Each line: the patient, the verdict, what must
 * be found (level, rule, herb, and nothing beside it) and after `not` what a hasty reader might expect and must not be
 * there. The reasons are those of the monographs, worked out by hand.
 */
const TABLE = `
# S-108 takes senna already, beside a diuretic and digoxin: said to them with whatever is handed over.
# Chamomile 2.16 g and sweet fennel 1.44 g in each 150 mL, three times: 6.48 g and 4.32 g a day, for 7 days.
# How much estragole the fruit itself holds is stated nowhere that was read, and 0.05 mg is the most in a day: a note.
after-supper
# 20 months. Fennel: its one floor is 4 years (HMPC). Chamomile: 2 years at Health Canada against 6 months in the HMPC
# and product texts, so a decision; but those two give 0.5-1 g at once, and 2.16 g is above both.
S-101 withhold: withhold age-floor sweet-fennel-fruit, decide age-floor chamomile-flower, withhold dose chamomile-flower, note intake-limit sweet-fennel-fruit not dose sweet-fennel-fruit
# 11 years. Fennel has the one figure of 1 g (3 g a day) from 4 to under 12; chamomile's 1.5-3 g holds 2.16 g. The
# fennel is stopped after 7 days, and 7 days are not more.
S-102 decide: decide dose sweet-fennel-fruit, note intake-limit sweet-fennel-fruit not age-floor sweet-fennel-fruit, dose chamomile-flower, course sweet-fennel-fruit
# 12 years: chamomile 1.5-4 g, fennel 1.5 g and 4.5 g a day.
S-103 note: note intake-limit sweet-fennel-fruit not age-floor sweet-fennel-fruit, dose sweet-fennel-fruit
S-104 note: note intake-limit sweet-fennel-fruit
# Fennel is not recommended in pregnancy; chamomile tea is acceptable. Fennel's interactions were not read, and
# levothyroxine leaves little room.
S-105 decide: decide stage sweet-fennel-fruit, decide narrow-margin sweet-fennel-fruit, note intake-limit sweet-fennel-fruit not stage chamomile-flower
# Warfarin beside fennel's unread interactions; chamomile's list names no anticoagulant, and aspirin is neither family.
S-106 decide: decide narrow-margin sweet-fennel-fruit, note intake-limit sweet-fennel-fruit not caution chamomile-flower, allergy chamomile-flower
# Ragweed pollen crosses with the daisy family: asked, not barred. Medicines were not asked about. Fennel is not
# recommended while breastfeeding; its own cross-reaction is with mugwort.
S-107 ask: ask allergy chamomile-flower, ask unanswered -, decide stage sweet-fennel-fruit, note intake-limit sweet-fennel-fruit not allergy sweet-fennel-fruit, caution sweet-fennel-fruit, stage chamomile-flower
# Digoxin leaves little room. Heart failure bars chamomile in a full bath alone; at 84 nobody is asked about pregnancy.
S-108 decide: decide narrow-margin sweet-fennel-fruit, note intake-limit sweet-fennel-fruit, note taken-already senna-leaf not caution chamomile-flower, unanswered -

# Lemon balm 1.8 g and chamomile 1.2 g in each half pot, twice: 3.6 g and 2.4 g a day, for 14 days. Lemon balm tells
# everyone to see a doctor if it gets worse; chamomile (HMPC) sends on after 7 days.
quiet-evening
# Three sources of lemon balm start at 12 years, two of them for more than want of data. 1.2 g of chamomile is above the
# 1 g of both sources under 2 years. Driving was not asked about, and does not arise.
S-101 withhold: withhold age-floor lemon-balm-leaf, decide age-floor chamomile-flower, withhold dose chamomile-flower, note caution lemon-balm-leaf, note course chamomile-flower not unanswered -
S-102 withhold: withhold age-floor lemon-balm-leaf, note caution lemon-balm-leaf, note course chamomile-flower not age-floor chamomile-flower, dose chamomile-flower
S-103 note: note caution lemon-balm-leaf, note course chamomile-flower not age-floor lemon-balm-leaf, course lemon-balm-leaf
S-104 note: note caution lemon-balm-leaf, note course chamomile-flower
# Not recommended in pregnancy (HMPC). Its interactions are "no data", which was read, so levothyroxine is no decision; a
# thyroid disease was not stated.
S-105 decide: decide stage lemon-balm-leaf, note caution lemon-balm-leaf, note course chamomile-flower not narrow-margin lemon-balm-leaf, stage chamomile-flower
S-106 note: note caution lemon-balm-leaf, note course chamomile-flower not narrow-margin lemon-balm-leaf, caution chamomile-flower
# Medicines matter for chamomile (immunosuppressants). Lemon balm is not recommended while breastfeeding.
S-107 ask: ask allergy chamomile-flower, ask unanswered -, decide stage lemon-balm-leaf, note caution lemon-balm-leaf, note course chamomile-flower not stage chamomile-flower
S-108 note: note caution lemon-balm-leaf, note course chamomile-flower, note taken-already senna-leaf not narrow-margin lemon-balm-leaf, unanswered -

# Ginger 175 mg and lemon balm 325 mg in each scoop, three times: 525 mg and 975 mg a day, for 5 days. Both tell everyone
# to see a doctor if the complaint lasts or gets worse.
steady-journey
# Ginger: 6 years at the lowest in every source, contraindicated under it in one.
S-101 withhold: withhold age-floor ginger-rhizome, withhold age-floor lemon-balm-leaf, note caution ginger-rhizome, note caution lemon-balm-leaf
# Ginger for this use: 18 years (HMPC) and 12 (product), but 6 at Health Canada, so a decision.
S-102 withhold: decide age-floor ginger-rhizome, withhold age-floor lemon-balm-leaf, note caution ginger-rhizome, note caution lemon-balm-leaf not dose ginger-rhizome
S-103 decide: decide age-floor ginger-rhizome, note caution ginger-rhizome, note caution lemon-balm-leaf not age-floor lemon-balm-leaf, dose ginger-rhizome
# 175 mg is inside 180 mg (HMPC) and 250 mg (product), 525 mg inside 0.3-3 g (Health Canada).
S-104 note: note caution ginger-rhizome, note caution lemon-balm-leaf not dose ginger-rhizome, dose lemon-balm-leaf
# Both are not recommended in pregnancy by the HMPC texts.
S-105 decide: decide stage ginger-rhizome, decide stage lemon-balm-leaf, note caution ginger-rhizome, note caution lemon-balm-leaf
# Ginger: the HMPC text watches the INR, the supplement information service says to avoid it with warfarin.
S-106 withhold: withhold caution ginger-rhizome, note caution ginger-rhizome, note caution lemon-balm-leaf, decide additive-effect ginger-rhizome not allergy ginger-rhizome
S-107 ask: ask unanswered -, decide stage ginger-rhizome, decide stage lemon-balm-leaf, note caution ginger-rhizome, note caution lemon-balm-leaf not allergy ginger-rhizome
# Apixaban is neither warfarin, nor a vitamin K antagonist, nor an antiplatelet: of the rest ginger's sources say nothing.
# As an anticoagulant apixaban makes bleeding likelier, and so does ginger: they add up.
S-108 decide: decide additive-effect ginger-rhizome, note caution ginger-rhizome, note caution lemon-balm-leaf, note taken-already senna-leaf

# Willow 2 g and meadowsweet 1 g in each third, three times: 6 g and 3 g a day, for 14 days. Commission E counts total
# salicin, of which only a least content was read: a note for every adult, and another beside Health Canada's 240 mg.
stiff-joints
# Both herbs hold salicylates, which is a note; beside an anticoagulant or aspirin they add up, which is a decision.
# Both sources of willow start at 18 years, one for Reye syndrome. Meadowsweet's floor is want of data alone.
S-101 withhold: withhold age-floor willow-bark, decide age-floor meadowsweet-herb, note additive-effect willow-bark, note additive-effect meadowsweet-herb
S-102 withhold: withhold age-floor willow-bark, decide age-floor meadowsweet-herb, note additive-effect willow-bark, note additive-effect meadowsweet-herb
S-103 withhold: withhold age-floor willow-bark, decide age-floor meadowsweet-herb, note additive-effect willow-bark, note additive-effect meadowsweet-herb
# 2 g within 1-3 g (HMPC) and under Health Canada's 3 g; 3 g of meadowsweet under Commission E's 4-5 g a day.
S-104 note: note dose willow-bark, note intake-limit willow-bark, note additive-effect willow-bark, note additive-effect meadowsweet-herb not dose meadowsweet-herb
# From week 28 contraindicated (HMPC, product).
S-105 withhold: withhold stage willow-bark, decide stage meadowsweet-herb, note dose willow-bark, note intake-limit willow-bark, note additive-effect willow-bark, note additive-effect meadowsweet-herb not narrow-margin willow-bark
# Vitamin K antagonists are to be avoided with willow; aspirin is a salicylate, which bars both herbs. The general rule
# on allergies does not say it again.
S-106 withhold: withhold caution willow-bark, withhold caution meadowsweet-herb, note dose willow-bark, note intake-limit willow-bark, note additive-effect willow-bark, note additive-effect meadowsweet-herb, decide additive-effect willow-bark, decide additive-effect meadowsweet-herb not allergy willow-bark, allergy meadowsweet-herb
# The product text bars every asthma. Ragweed has nothing to do with either plant.
S-107 withhold: withhold caution willow-bark, ask unanswered -, decide stage willow-bark, decide stage meadowsweet-herb, note dose willow-bark, note intake-limit willow-bark, note additive-effect willow-bark, note additive-effect meadowsweet-herb not allergy willow-bark
# Apixaban is an anticoagulant: caution (USP), and no vitamin K antagonist, which would be withheld.
S-108 decide: decide caution willow-bark, note dose willow-bark, note intake-limit willow-bark, note additive-effect willow-bark, note additive-effect meadowsweet-herb, decide additive-effect willow-bark, decide additive-effect meadowsweet-herb, note taken-already senna-leaf not narrow-margin willow-bark, caution meadowsweet-herb

# Valerian 2.5 g once a night, for 14 days: inside 0.3-3 g (HMPC), 1-3 g (product), 2-3 g (Commission E), under 3.6 g at
# once (Health Canada). What is said of the infusion counts for the maceration.
still-night
# 12 years in both texts, and under it contraindicated in the product's. Nobody of 20 months drives.
S-101 withhold: withhold age-floor valerian-root not dose valerian-root, caution valerian-root
S-102 withhold: withhold age-floor valerian-root not dose valerian-root
S-103 clear: not age-floor valerian-root, dose valerian-root
S-104 clear: not dose valerian-root
# Not recommended in pregnancy; she drives.
S-105 decide: decide stage valerian-root, note caution valerian-root
S-106 note: note caution valerian-root not narrow-margin valerian-root
# Medicines matter for synthetic sedatives.
S-107 ask: ask unanswered -, decide stage valerian-root, note caution valerian-root
# Heart failure bars the bath alone; she does not drive and takes no sedative.
S-108 note: note taken-already senna-leaf not caution valerian-root

# Liquorice 1 g and bitter fennel 1.5 g in each 150 mL, twice: 2 g and 3 g a day, for 7 days. At 4 % or more, 2 g hold 80 mg
# of glycyrrhizin or more, and 100 mg is the most in a day (Scientific Committee on Food, 2003): it cannot be bounded.
winter-chest
# Liquorice starts at 18 years in both sources, fennel for a cough at 18 in its one.
S-101 withhold: withhold age-floor liquorice-root, withhold age-floor bitter-fennel-fruit, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root
S-102 withhold: withhold age-floor liquorice-root, withhold age-floor bitter-fennel-fruit, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root
S-103 withhold: withhold age-floor liquorice-root, withhold age-floor bitter-fennel-fruit, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root
# Liquorice 1 g under 1.5 g, fennel 1.5 g within 1.5-2.5 g; 7 days are not beyond the 7 of the product text.
S-104 note: note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root not course liquorice-root, dose liquorice-root, dose bitter-fennel-fruit
# Commission E contraindicates liquorice in pregnancy; its bar on fennel leaves out tea, the HMPC text does not.
S-105 withhold: withhold stage liquorice-root, decide stage bitter-fennel-fruit, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root
# Warfarin is handled by CYP3A4: watched. A clot in a vein is none of the conditions that liquorice's sources name.
S-106 decide: decide caution liquorice-root, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root not narrow-margin bitter-fennel-fruit
S-107 ask: ask unanswered -, decide stage liquorice-root, decide stage bitter-fennel-fruit, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root not allergy bitter-fennel-fruit
# High blood pressure contraindicated (Commission E); a diuretic, digoxin and senna to be avoided (HMPC); ramipril and
# bisoprolol lower blood pressure, apixaban is a CYP3A4 substrate: watched. Potassium is lost beside digoxin.
S-108 withhold: withhold caution liquorice-root, decide caution liquorice-root, note intake-limit bitter-fennel-fruit, note intake-limit liquorice-root, decide additive-effect liquorice-root, note taken-already senna-leaf not caution bitter-fennel-fruit, unanswered -

# Valerian 2.5 mL of a tincture of 1:5 in 70 % once a night, within 2-3 mL of the product text; 0.5 g, within 0.3-12 g
# a day (Health Canada). Lemon balm 1.9 mL of 1:5 in 45 %, below 2-6 mL (HMPC). 2.04 g of ethanol in the dose. Nobody but
# S-104 was asked whether they avoid alcohol; a word about ethanol is for whoever takes 15 mg/kg, at 136 kg and less.
hushed-hours
# Both herbs bring drowsiness: a note.
# 20 months: no ethanol under 2 years. Both herbs start at 12 years in every source.
S-101 withhold: withhold age-floor valerian-root, withhold age-floor lemon-balm-leaf, withhold ethanol -, ask unanswered -, note caution lemon-balm-leaf, note additive-effect lemon-balm-leaf, note additive-effect valerian-root
S-102 withhold: withhold age-floor valerian-root, withhold age-floor lemon-balm-leaf, decide ethanol -, ask unanswered -, note caution lemon-balm-leaf, note additive-effect lemon-balm-leaf, note additive-effect valerian-root
# 12 years: the 1:2 tincture and the powder of one British product start at 18.
S-103 ask: decide age-floor valerian-root, decide ethanol -, ask unanswered -, note caution lemon-balm-leaf, note additive-effect lemon-balm-leaf, note additive-effect valerian-root
S-104 note: note caution lemon-balm-leaf, note ethanol -, note additive-effect lemon-balm-leaf, note additive-effect valerian-root
# No ethanol in pregnancy; she drives.
S-105 ask: ask unanswered -, decide ethanol -, decide stage valerian-root, decide stage lemon-balm-leaf, note ethanol -, note caution lemon-balm-leaf, note caution valerian-root, note additive-effect lemon-balm-leaf, note additive-effect valerian-root
S-106 ask: ask unanswered -, note ethanol -, note caution lemon-balm-leaf, note caution valerian-root, note additive-effect lemon-balm-leaf, note additive-effect valerian-root not dose valerian-root
# Ethanol passes into the milk.
S-107 ask: ask unanswered -, decide ethanol -, decide stage valerian-root, decide stage lemon-balm-leaf, note ethanol -, note caution lemon-balm-leaf, note caution valerian-root, note additive-effect lemon-balm-leaf, note additive-effect valerian-root
S-108 ask: ask unanswered -, note ethanol -, note caution lemon-balm-leaf, note additive-effect lemon-balm-leaf, note additive-effect valerian-root, note taken-already senna-leaf not caution valerian-root
`;

interface Row {
  readonly code: string;
  readonly formula: string;
  readonly verdict: string;
  readonly found: readonly string[];
  readonly absent: readonly string[];
}

function rows(text: string): Row[] {
  let formula = '';
  return text.split('\n').flatMap((line): Row[] => {
    if (line === '' || line.startsWith('#')) return [];
    const row = /^(S-\d+) (\w+):(?: ((?!not ).*?))?(?: not (.*))?$/.exec(line);
    if (row === null) formula = line;
    const [, code, verdict, found, absent] = row ?? [];
    return code === undefined || verdict === undefined
      ? []
      : [{ code, formula, verdict, found: found?.split(', ') ?? [], absent: absent?.split(', ') ?? [] }];
  });
}

const ROWS = rows(TABLE);
const ON = '2026-05-02';

const named = (dir: string): string[] =>
  readdirSync(new URL(dir, import.meta.url))
    .map((f) => f.replace('.yaml', ''))
    .sort();

describe('Saltmarsh House on 2 May 2026', () => {
  it('is judged for every patient and every formula of the table', () => {
    const told = [...new Set(ROWS.map((r) => r.formula))];
    const pairs = told.flatMap((f) => named('./patients/').map((p) => `${f} ${p}`));
    expect(ROWS.map((r) => `${r.formula} ${r.code}`)).toEqual(pairs);
  });

  it.each(ROWS)('$formula for $code: $verdict', async ({ code, formula, verdict, found, absent }) => {
    const c = await judgePatient(code, formula, ON);
    const told = c.findings.map((f) => `${f.level} ${f.rule} ${f.herb ?? '-'}`);
    expect([...new Set(told)].sort()).toEqual([...found].sort());
    const rules = c.findings.map((f) => `${f.rule} ${f.herb ?? '-'}`);
    for (const a of absent) expect(rules).not.toContain(a);
    expect(c.verdict).toBe(verdict);
  });
});

/** Preparations of which no published dose was read: the practitioner decides, and that is all there is to decide. */
const NO_SOURCE_SPEAKS_OF: Readonly<Record<string, readonly string[]>> = {
  'harbour-salve': ['dose/chamomile-flower/harbour-salve-none'],
  'quay-suppositories': ['dose/chamomile-flower/quay-suppositories-none'],
  'sun-oil': ['dose/st-johns-wort-herb/sun-oil-none'],
  'sweet-balm-glycerite': [
    'dose/lemon-balm-leaf/sweet-balm-glycerite-none',
    'dose/sweet-fennel-fruit/sweet-balm-glycerite-none',
  ],
  'tidal-oxymel': ['dose/ginger-rhizome/tidal-oxymel-none', 'dose/thyme-herb/tidal-oxymel-none'],
};

describe('the adult who answered everything', () => {
  it.each(named('../../formulas/'))('may have %s without a decision', async (formula) => {
    const c = await judgePatient('S-104', formula, ON);
    const told = c.findings.filter((f) => f.level !== 'note').map((f) => f.id);
    expect(told).toEqual(NO_SOURCE_SPEAKS_OF[formula] ?? []);
  });
});
