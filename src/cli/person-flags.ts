import { parseHeight, parsePregnant, parseWeight, parseYesNo } from '../folder/answers.ts';
import type { Patient } from '../folder/schema/patient.ts';
import { parseAge } from '../measure/age.ts';
import { type CalendarDate, parseDate, parseDateInterval } from '../measure/calendar.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { PersonOptions } from './options.ts';
import { flagReader } from './read-flags.ts';

/** The flags that describe a person, by the question each answers. */
const FLAGS = [
  'age',
  'born',
  'weight',
  'height',
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
  const read = flagReader(faults);
  const names = (flag: string, list: readonly string[] | undefined) => read(flag, list, parseNames);
  if (options.age !== undefined && options.born !== undefined)
    faults.push('--age and --born both say how old: give one');
  const patient = {
    patient: 'the person described',
    asked: on,
    age: read('--age', options.age, parseAge),
    born: read('--born', options.born, parseDateInterval),
    weight: read('--weight', options.weight, parseWeight),
    height: read('--height', options.height, parseHeight),
    sex: read('--sex', options.sex, parseSex),
    pregnant: read('--pregnant', options.pregnant, parsePregnant),
    breastfeeding: read('--breastfeeding', options.breastfeeding, parseYesNo),
    trying_to_conceive: read('--trying-to-conceive', options.tryingToConceive, parseYesNo),
    conditions: names('--condition', options.condition)?.map((name) => ({ name })),
    medicines: names('--medicine', options.medicine)?.map((name) => ({ name })),
    allergies: names('--allergy', options.allergy)?.map((name) => ({ name })),
    taking: names('--taking', options.taking)?.map((herb) => ({ herb })),
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

/**
 * The names that a repeated flag gives; a comma parts several, and `none` means asked and none. An empty text, as an
 * unset variable leaves it, must not pass for that answer, and `none` beside a name is a slip.
 */
function parseNames(list: readonly string[]): Result<string[]> {
  const names = list.flatMap((item) => item.split(',')).map((n) => n.trim());
  if (names.includes('')) return bad('is empty: write a name, or none');
  const named = names.filter((n) => !/^none$/i.test(n));
  if (named.length === names.length || named.length === 0) return ok(named);
  return bad(`names ${named.join(', ')} and says none: keep one or the other`);
}
