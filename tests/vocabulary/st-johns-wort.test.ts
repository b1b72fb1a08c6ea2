import { describe, expect, it } from 'vitest';
import { medicineMatches, resolveMedicine } from '../../src/vocabulary/medicines.ts';
import { item, medicines } from './tables.ts';

const matches = (name: string, target: string) =>
  medicineMatches(medicines, item(resolveMedicine(medicines, { name })), target);

/** Package leaflet of a St John's wort medicine authorised in the European Union, 2022: a rule on these groups meets all it names. */
describe("medicines that a St John's wort leaflet names", () => {
  // biome-ignore format: a list
  const groups = [
    'vitamin_k_antagonists', 'anticoagulants', 'antiplatelets', 'nsaids', 'cardiac_glycosides',
    'antiarrhythmics', 'calcium_channel_blockers', 'diuretics', 'statins', 'non_insulin_antidiabetics',
    'thyroid_hormones', 'hormonal_contraceptives', 'hrt', 'aromatase_inhibitors', 'ssri', 'snri',
    'tricyclics', 'mao_inhibitors', 'antidepressants', 'triptans', 'antipsychotics', 'lithium_salts',
    'barbiturates', 'anxiolytics', 'opioids', 'antiepileptics', 'cns_stimulants', 'general_anaesthetics',
    'theophylline_group', 'immunosuppressants', 'cytotoxics', 'kinase_inhibitors',
    'hiv_protease_inhibitors', 'nnrti', 'antiretrovirals', 'azole_antifungals', 'macrolides',
    'antimalarials', 'proton_pump_inhibitors', 'cyp3a4_substrates', 'antianginals',
    'potassium_sparing_diuretics',
  ];

  // biome-ignore format: a list
  it.each([
    'almotriptan', 'eletriptan', 'frovatriptan', 'naratriptan', 'rizatriptan', 'sumatriptan',
    'zolmitriptan', 'tramadol', 'fentanyl', 'propofol', 'midazolam', 'sevoflurane', 'buspirone',
    'exemestane', 'ivabradine', 'amiodarone', 'erythromycin', 'clarithromycin', 'telithromycin', 'warfarin',
    'acenocoumarol', 'carbamazepine', 'phenobarbital', 'phenytoin', 'primidone', 'valproic acid',
    'amitriptyline', 'clomipramine', 'moclobemide', 'citalopram', 'fluoxetine', 'fluvoxamine', 'paroxetine',
    'sertraline', 'duloxetine', 'venlafaxine', 'itraconazole', 'voriconazole',
    'artemether and lumefantrine', 'rasagiline', 'aripiprazole', 'atazanavir', 'darunavir', 'fosamprenavir',
    'indinavir', 'lopinavir and ritonavir', 'nelfinavir', 'ritonavir', 'saquinavir', 'tipranavir',
    'efavirenz', 'nevirapine', 'aprepitant', 'butobarbital', 'amlodipine', 'nifedipine', 'verapamil',
    'felodipine', 'irinotecan', 'dasatinib', 'erlotinib', 'imatinib', 'sorafenib', 'sunitinib', 'etoposide',
    'mitotane', 'eplerenone', 'methylphenidate', 'digoxin', 'gliclazide', 'simvastatin', 'atorvastatin',
    'levothyroxine sodium', 'lansoprazole', 'omeprazole', 'ciclosporin', 'tacrolimus', 'lithium',
    'theophylline', 'phenprocoumon', 'clopidogrel', 'acetylsalicylic acid',
  ])('%s', (name) => {
    expect(groups.filter((g) => matches(name, g) === true)).not.toEqual([]);
  });

  it.each(['amprenavir', 'delavirdine'])('%s was withdrawn long ago and is unknown, so asked', (name) => {
    expect(resolveMedicine(medicines, { name }).kind).toBe('unknown');
  });

  it.each(['amoxicillin', 'folic acid', 'latanoprost'])('%s is not named and meets none', (name) => {
    expect(groups.filter((g) => matches(name, g) !== false)).toEqual([]);
  });
});
