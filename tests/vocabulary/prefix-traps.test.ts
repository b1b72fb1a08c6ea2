import { describe, expect, it } from 'vitest';
import { medicineMatches, resolveMedicine, type TakenMedicine } from '../../src/vocabulary/medicines.ts';
import { item, medicines } from './tables.ts';

const taken = (name: string, atc?: string): TakenMedicine => item(resolveMedicine(medicines, { name, atc }));
const matches = (word: string, target: string) => medicineMatches(medicines, taken(word), target);

/** Where the shape of the classification misleads (ATC/DDD Index, 25 April 2026): the prefix says one thing, the group the right one. */
describe('traps of the prefixes', () => {
  it('B01A holds anticoagulants and platelet inhibitors together', () => {
    expect([
      matches('clopidogrel', 'B01A'),
      matches('clopidogrel', 'anticoagulants'),
      matches('clopidogrel', 'antiplatelets'),
    ]).toEqual([true, false, true]);
    expect([
      matches('warfarin', 'B01A'),
      matches('warfarin', 'anticoagulants'),
      matches('warfarin', 'antiplatelets'),
    ]).toEqual([true, true, false]);
  });

  it("N06AX holds the SNRIs, other antidepressants and St John's wort", () => {
    expect([matches('venlafaxine', 'snri'), matches('mirtazapine', 'snri')]).toEqual([true, false]);
    expect([matches('mirtazapine', 'N06AX'), matches('mirtazapine', 'antidepressants')]).toEqual([
      true,
      true,
    ]);
    expect([
      matches("St John's wort", 'N06A'),
      matches("St John's wort", 'antidepressants'),
      matches("St John's wort", 'psychotropics'),
    ]).toEqual([true, false, false]);
  });

  it('N05CM and N05BX hold valerian root and lavender oil', () => {
    expect([
      matches('valerian root', 'N05CM'),
      matches('valerian root', 'hypnotics'),
      matches('valerian root', 'synthetic_sedatives'),
    ]).toEqual([true, false, false]);
    expect([
      matches('lavender oil', 'N05BX'),
      matches('lavender oil', 'anxiolytics'),
      matches('lavender oil', 'cns_depressants'),
    ]).toEqual([true, false, false]);
  });

  it('N03A no longer holds gabapentin and pregabalin', () => {
    for (const word of ['gabapentin', 'pregabalin']) {
      expect([
        matches(word, 'N03A'),
        matches(word, 'antiepileptics'),
        matches(word, 'gabapentinoids'),
      ]).toEqual([false, true, true]);
    }
  });

  it('M01A also holds glucosamine and others that are no NSAIDs', () => {
    const glucosamine = taken('glucosamine', 'M01AX05');
    expect(medicineMatches(medicines, glucosamine, 'M01A')).toBe(true);
    expect(medicineMatches(medicines, glucosamine, 'nsaids')).toBe(false);
    expect(matches('nabumetone', 'nsaids')).toBe(true);
  });

  it('C03 lacks the diuretics in combinations', () => {
    for (const code of ['C09BX01', 'C09DX03', 'C09XA52', 'C10BX13']) {
      expect([matches(code, 'C03'), matches(code, 'diuretics')]).toEqual([false, true]);
    }
  });

  it('C02 also holds medicines for pulmonary hypertension', () => {
    expect([
      matches('bosentan', 'C02'),
      matches('bosentan', 'antihypertensives'),
      matches('doxazosin', 'antihypertensives'),
    ]).toEqual([true, false, true]);
  });

  it('J05AE also holds protease inhibitors against SARS-CoV-2, one with ritonavir', () => {
    expect([matches('J05AE16', 'J05AE'), matches('J05AE16', 'hiv_protease_inhibitors')]).toEqual([
      true,
      false,
    ]);
    expect(matches('nirmatrelvir', 'hiv_protease_inhibitors')).toBe(true);
  });

  it('L04A lacks methotrexate and everolimus by their other code', () => {
    for (const code of ['L01BA01', 'L01EG02']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([
        medicineMatches(medicines, only, 'L04A'),
        medicineMatches(medicines, only, 'immunosuppressants'),
      ]).toEqual([false, true]);
    }
  });

  it('L01XE was withdrawn and still stands in older records', () => {
    expect(taken('L01XE01').name).toBe('imatinib');
    expect([
      matches('imatinib', 'L01XE'),
      matches('imatinib', 'L01E'),
      matches('paclitaxel', 'L01XE'),
    ]).toEqual([true, true, false]);
    expect([matches('TKI', 'L01XE'), matches('statins', 'L01XE')]).toEqual(['unknown', false]);
  });

  it('S01EC01 is an eye code, and acetazolamide is taken by mouth', () => {
    expect(taken('acetazolamide tablets').codes).toEqual(['S01EC01']);
  });

  it('G03A lacks the hormone device, the ring and cyproterone with oestrogen', () => {
    for (const code of ['G02BA03', 'G02BB01', 'G03HB01']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([
        medicineMatches(medicines, only, 'G03A'),
        medicineMatches(medicines, only, 'hormonal_contraceptives'),
      ]).toEqual([false, true]);
    }
    expect(matches('co-cyprindiol', 'hormonal_contraceptives')).toBe(true);
  });

  it('N02A lacks plain codeine, hydrocodone, diamorphine, methadone and buprenorphine for dependence', () => {
    for (const code of ['R05DA04', 'R05DA03', 'N07BC06', 'N07BC02', 'N07BC01']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([medicineMatches(medicines, only, 'N02A'), medicineMatches(medicines, only, 'opioids')]).toEqual(
        [false, true],
      );
    }
    expect(matches('dextromethorphan', 'opioids')).toBe(false);
  });

  it('B01AC lacks aspirin as a painkiller or in a combination', () => {
    for (const code of ['N02BA01', 'N02BA51', 'C10BX05']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([
        medicineMatches(medicines, only, 'B01AC'),
        medicineMatches(medicines, only, 'antiplatelets'),
      ]).toEqual([false, true]);
    }
  });
});
