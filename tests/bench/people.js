// Invented people for the caseload, the same for the same seed: node tests/bench/people.js ROWS [SEED] > people.ndjson
import { pathToFileURL } from 'node:url';

const MEDICINES = [
  'warfarin', 'digoxin', 'ramipril', 'furosemide', 'metformin', 'levothyroxine', 'amlodipine', 'sertraline', 'simvastatin', 'omeprazole',
  'paracetamol', 'ibuprofen', 'salbutamol', 'diazepam', 'prednisolone', 'lithium', 'ciclosporin', 'insulin', 'apixaban', 'bisoprolol',
]; // biome-ignore format: a list
const CONDITIONS = [
  'asthma', 'high blood pressure', 'heart failure', 'type 2 diabetes', 'epilepsy', 'peptic ulcer', 'gallstones', 'depression', 'gout', 'hay fever',
]; // biome-ignore format: a list
const ALLERGIES = ['aspirin', 'ragweed', 'penicillin', 'celery', 'chamomile', 'latex'];
const TAKING = ['senna-leaf', 'valerian-root', 'peppermint-leaf', 'turmeric-rhizome', 'ginger-rhizome'];

/** A linear congruential generator (Knuth, MMIX): the bench wants the same people anywhere, not good chance. */
function chance(seed) {
  let state = BigInt(seed) & 0xffffffffffffffffn;
  return () => {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
    return Number(state >> 33n) / 2 ** 31;
  };
}

export function* people(rows, seed = 1) {
  const next = chance(seed);
  const one = (list) => list[Math.floor(next() * list.length)];
  const some = (list, most) => [
    ...new Set(Array.from({ length: Math.floor(next() * (most + 1)) }, () => one(list))),
  ];
  for (let i = 1; i <= rows; i += 1) {
    const female = next() < 0.55;
    const born = 1935 + Math.floor(next() * 85);
    const two = (n) => String(n).padStart(2, '0');
    const fertile = female && born > 1970 && born < 2012;
    yield JSON.stringify({
      patient: `B-${i}`,
      asked: '2026-04-28',
      born: `${born}-${two(1 + Math.floor(next() * 12))}-${two(1 + Math.floor(next() * 28))}`,
      weight: `${45 + Math.floor(next() * 60)} kg`,
      sex: female ? 'female' : 'male',
      ...(fertile
        ? { pregnant: next() < 0.05 ? 'yes' : 'no', breastfeeding: 'no', trying_to_conceive: 'no' }
        : {}),
      conditions: some(CONDITIONS, 2),
      medicines: some(MEDICINES, 3),
      allergies: some(ALLERGIES, 1),
      taking: some(TAKING, 1),
      ...(next() < 0.8 ? { surgery: null } : {}),
      drives: next() < 0.7 ? 'yes' : 'no',
      avoids_alcohol: 'no',
    });
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [rows = '1000', seed = '1'] = process.argv.slice(2);
  let waiting = '';
  for (const row of people(Number(rows), Number(seed))) {
    waiting += `${row}\n`;
    if (waiting.length < 1 << 16) continue;
    process.stdout.write(waiting);
    waiting = '';
  }
  process.stdout.write(waiting);
}
