/** The files that a new practice begins with and that are ours to write; the rest of it is copied. */

export interface Settled {
  readonly practice: string | null;
  readonly jurisdiction: string | null;
  readonly pint: string | null;
}

/** A setting as the file has it: written where it was given, else as an example in a comment. */
const setting = (key: string, value: string | null, example: string): string =>
  value === null ? `# ${key}: ${example}` : `${key}: ${value}`;

/** Every setting explained; what has a default stands in a comment. A text in quotes is JSON, which YAML reads. */
export function practiceText({ practice, jurisdiction, pint }: Settled): string {
  return `# yaml-language-server: $schema=schemas/practice.json
#
# What the practice settles once. All of it may be left out: a line that begins
# with # is only explained. To use one, take its # away and write your own.
# scruple validate tells what is wrong, with its place.

# The name of the practice.
${setting('practice', practice === null ? null : JSON.stringify(practice), 'Reed House')}

# How it is reached, for the label.
# contact: 1 Sluice Lane

# Whose law holds here: UK, IE, EU, US, CA, AU, NZ or other.
${setting('jurisdiction', jurisdiction, 'UK')}

# Words for more than one measure, and which of them is meant here. Without
# this, a bare pint, ounce or cup is refused: write 1 imp pint or 1 US pint.
${setting('settled', pint === null ? null : `{ pint: ${pint} }`, '{ pint: imperial, ounce: oz av }')}

# Measures of your own by name, with the size of each.
# measures: { dropper: 0.8 mL, house cup: 200 mL }

# The balance: its smallest step, the least change that it shows (as large as
# the step where it is left out), and the error that you allow in a weighing.
# These are the defaults: put those of your own balance here.
balance: { step: 0.1 g, sensitivity: 0.1 g, permitted_error: 5 % }

# The measuring cylinder. These are the defaults; without sensitivity it is
# read to half of its step.
# cylinder: { step: 1 mL, sensitivity: 0.5 mL, permitted_error: 5 % }

# The sizes of bottle that you dispense in.
# bottles: [50 mL, 100 mL, 200 mL]

# How far apart the strengths in one bottle must stand for a word about a
# sediment. This is the default.
# sediment_from: 30 % v/v

# Water in the pot, as you have measured it: what boils off, and what each g of
# herb holds back. Without these the shared table of water estimates it.
# water: { boils_off: 8 mL/min, holds: 2 mL/g }

# How long you keep things, by their form (dried, powder, tincture) or what they
# are made as (liquid-blend, ointment). It sets the dates on labels and lots.
# keeps: { dried: 12 months, tincture: 36 months }

# How long an answer of a patient stays good, by question. Without this it is
# as monographs/reference/questions.yaml has it.
# answers: { pregnant: 28 days, medicines: 90 days }
`;
}

/** A patient file in which nothing has been asked yet, so that a check of it asks for everything. */
export const PATIENT_TEMPLATE = `# yaml-language-server: $schema=../schemas/patient.json
#
# A patient's answers. Copy this file, such as to patients/P-001.yaml, and fill
# in the copy. Take the # away from a question when you have asked it.
#
# A question left out means: not asked. The check then asks for it wherever a
# herb depends on it; nothing that is unknown passes.
# [] means: asked, and there is none. So does a list that holds only none.
# Write a list as [one, two], or each on a line of its own after "- ".

# A code for the person, never a name.
patient: TEMPLATE

# The day on which you asked, year-month-day. Answers grow stale from this day:
# write the real one.
asked: 2000-01-01

# The birthday, as far as it is known: 1984-02-11, 1984-02 or 1984.
# Or the age on the day of asking instead: age: 34 years, or 18 months.
# born: 1984-02-11

# weight: 68 kg
# height: 170 cm

# female or male
# sex: female

# yes, no, or the completed weeks: 30 weeks
# pregnant: no

# yes or no
# breastfeeding: no
# trying_to_conceive: no

# Illnesses and conditions, each as you would write it. With more to say:
# {name: asthma, since: 2015}
# conditions: []

# Medicines, by name, bought ones too. With more to say:
# {name: warfarin, atc: B01AA03, since: 2024-03}
# medicines: []

# Allergies, to plants above all. With more to say:
# {name: ragweed, how: rash}
# allergies: []

# Herbs and supplements taken already. With more to say:
# {herb: valerian-root, daily: 2 g} or
# {product: night tablets, holds: [{herb: valerian-root, daily: 450 mg}]}
# taking: []

# Driving or working with machines, avoiding alcohol for whatever reason, told
# to limit what is drunk: yes or no.
# drives: yes
# avoids_alcohol: no
# fluid_restricted: no

# The day of a planned operation, or null where none is planned.
# surgery: null

# What you have decided about findings; scruple check prints what to write.
# decisions: []

# notes: []
`;

/** Patients and records never leave for a remote; the template holds nobody. */
export const IGNORED = `# People's answers and records stay on this computer.
/patients/*
!/patients/TEMPLATE.yaml
/records/
`;

/** Which files each schema is for, as editors that speak the YAML language server read it. */
export function editorSettings(places: ReadonlyMap<string, string>): string {
  const schemas = Object.fromEntries([...places].map(([schema, files]) => [schema, files]));
  return `${JSON.stringify({ 'yaml.schemas': schemas }, null, 2)}\n`;
}
