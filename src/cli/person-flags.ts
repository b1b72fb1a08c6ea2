import { parsePregnant, parseYesNo } from '../folder/answers.ts';
import type { Patient } from '../folder/schema/patient.ts';
import { parseAge } from '../measure/age.ts';
import { type CalendarDate, parseDate, parseDateInterval } from '../measure/calendar.ts';
import { parseQuantity } from '../measure/parse.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { PersonOptions } from './options.ts';

/** The flags that describe a person, by the question each answers. */
const FLAGS = [
  'age',
  'born',
  'weight',
  'sex',
  'pregnant',
  'breastfeeding',
  'tryingToConceive',
  'condition',
  'medicine',
  'allergy',
  'taking',
  'drives',
  'avoidsAlcohol',
  'fluidRestricted',
  'surgery',
] as const;

export function describesPerson(options: PersonOptions): boolean {
  return FLAGS.some((f) => options[f] !== undefined);
}

/** A person described on the command line, as a patient file would have it, asked on the day `on`. */
export function patientFromFlags(options: PersonOptions, on: CalendarDate): Result<Patient, string[]> {
  const faults: string[] = [];
  const read = <T>(
    flag: string,
    text: string | undefined,
    parser: (t: string) => Result<T>,
  ): T | undefined => {
    if (text === undefined) return undefined;
    const r = parser(text);
    if (r.ok) return r.value;
    faults.push(`${flag} ${r.why}`);
    return undefined;
  };
  if (options.age !== undefined && options.born !== undefined)
    faults.push('--age and --born both say how old: give one');
  const patient = {
    patient: 'the person described',
    asked: on,
    age: read('--age', options.age, parseAge),
    born: read('--born', options.born, parseDateInterval),
    weight: read('--weight', options.weight, (t) => parseQuantity(t, undefined, ['mass'])),
    sex: read('--sex', options.sex, parseSex),
    pregnant: read('--pregnant', options.pregnant, parsePregnant),
    breastfeeding: read('--breastfeeding', options.breastfeeding, parseYesNo),
    trying_to_conceive: read('--trying-to-conceive', options.tryingToConceive, parseYesNo),
    conditions: named(options.condition),
    medicines: named(options.medicine),
    allergies: named(options.allergy),
    taking: unlessNone(options.taking)?.map((herb) => ({ herb })),
    drives: read('--drives', options.drives, parseYesNo),
    avoids_alcohol: read('--avoids-alcohol', options.avoidsAlcohol, parseYesNo),
    fluid_restricted: read('--fluid-restricted', options.fluidRestricted, parseYesNo),
    surgery: read(
      '--surgery',
      options.surgery,
      (t): Result<CalendarDate | null> => (/^(none|no)$/i.test(t.trim()) ? ok(null) : parseDate(t)),
    ),
  };
  if (faults.length > 0) return bad(faults);
  return ok(
    Object.fromEntries(Object.entries(patient).filter(([, v]) => v !== undefined)) as unknown as Patient,
  );
}

function parseSex(text: string): Result<'female' | 'male'> {
  const t = text.trim().toLowerCase();
  if (t === 'female' || t === 'f' || t === 'woman') return ok('female');
  if (t === 'male' || t === 'm' || t === 'man') return ok('male');
  return bad(`"${text}": write female or male`);
}

/** `none` means asked and none; a comma parts several names. */
function unlessNone(list: readonly string[] | undefined): string[] | undefined {
  if (list === undefined) return undefined;
  const names = list
    .flatMap((item) => item.split(','))
    .map((n) => n.trim())
    .filter((n) => n !== '');
  return names.filter((n) => !/^none$/i.test(n));
}

function named(list: readonly string[] | undefined): { name: string }[] | undefined {
  return unlessNone(list)?.map((name) => ({ name }));
}
