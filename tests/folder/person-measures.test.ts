import { describe, expect, it } from 'vitest';
import { changed, PATIENT, told } from './written.ts';

describe("a person's height", () => {
  it.each(['0 cm', '12 m', '122 km', '24 cm', '300 cm', '24 kg', '122'])('%s is refused', async (height) => {
    expect(await told('patient', changed(PATIENT, 'surgery: null', `height: ${height}`))).toHaveLength(1);
  });

  it.each(['122 cm', '1.22 m', '48 in'])('%s is read', async (height) => {
    expect(await told('patient', changed(PATIENT, 'surgery: null', `height: ${height}`))).toEqual([]);
  });
});

describe("a person's weight", () => {
  it.each([
    ['24', '5:1: "24" has no unit: write such as 24 kg'],
    ['0 kg', "5:1: this weight is not a person's: write such as 68 kg"],
    ['501 kg', "5:1: this weight is not a person's: write such as 68 kg"],
  ])('%s is refused', async (weight, problem) => {
    expect(await told('patient', changed(PATIENT, 'surgery: null', `weight: ${weight}`))).toEqual([problem]);
  });
});
