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
