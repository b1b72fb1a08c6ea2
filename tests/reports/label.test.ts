import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDate } from '../../src/measure/calendar.ts';
import { type Label, labelText } from '../../src/reports/label.ts';
import { widthOf } from '../../src/reports/wrap.ts';
import { must } from '../must.ts';

const LABEL: Label = {
  title: 'Hushed hours mixture, 70 mL',
  contents: ['valerian root (Valeriana officinalis), tincture 1:5 w/v: 35 mL', 'syrup: 9 mL'],
  strength: '46.7 % v/v ethanol',
  directions: ['Take 5 mL, once a day for 14 days, half an hour before bed.'],
  made: must(parseDate('2026-05-02')),
  discard_after: must(parseDate('2026-12-01')),
  says: ['valerian root may impair driving'],
  number: 'Record 000004, batch 000003',
  patient: 'P-1',
  practice: 'Saltmarsh House',
  contact: null,
};

describe('label', () => {
  it('carries what a practitioner-made remedy is labelled with', () => {
    const text = must(labelText(LABEL, { width: 40, lines: null })).join('\n');
    for (const part of [
      'Hushed hours mixture, 70 mL',
      'For P-1',
      'Take 5 mL, once a day',
      'valerian root (Valeriana officinalis)',
      '46.7 % v/v ethanol',
      'Made 2 May 2026.',
      'Discard after\n1 December 2026',
      'batch 000003',
      'Keep away from children.',
      'Saltmarsh House',
      'Valerian root may impair driving.',
      'For trained practitioners',
    ])
      expect(text).toContain(part);
  });

  it('writes May as May, so that no day is taken for a month', () => {
    expect(must(labelText(LABEL, { width: 40, lines: null })).join(' ')).not.toMatch(/2026-05/);
  });

  it('of a stock bottle says that it is to be checked first', () => {
    const text = must(labelText({ ...LABEL, patient: null }, { width: 60, lines: null })).join('\n');
    expect(text).toContain('Stock bottle: check before it is handed to anyone');
    expect(text).not.toContain('For P-1');
  });

  it('that has too few lines is refused with the number that it needs, and nothing is cut off', () => {
    const lines = must(labelText(LABEL, { width: 40, lines: null })).length;
    expect(labelText(LABEL, { width: 40, lines }).ok).toBe(true);
    const short = labelText(LABEL, { width: 40, lines: lines - 1 });
    expect(short.ok ? '' : short.why).toBe(
      `the label needs ${lines} lines of 40 columns and has ${lines - 1}: use a larger one, for nothing of it may be left out`,
    );
  });

  it('too narrow for a word is refused, and no word is broken', () => {
    const r = labelText(
      { ...LABEL, contents: ['acetylosalicylicoglycerolatum: 1 g'] },
      { width: 20, lines: null },
    );
    expect(r.ok ? '' : r.why).toMatch(/is wider than the label: make it 30 columns wide/);
  });

  it('says every word of it at any width that it fits (law)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 90 }),
        fc.array(fc.lorem({ maxCount: 30 }), { maxLength: 5 }),
        (width, says) => {
          const label = { ...LABEL, says };
          const r = labelText(label, { width, lines: null });
          if (!r.ok) return expect(r.why).toMatch(/wider than the label/);
          for (const line of r.value) expect(widthOf(line)).toBeLessThanOrEqual(width);
          const words = (text: string) => text.replace(/\s+/g, ' ').toLowerCase();
          const whole = words(r.value.join(' '));
          for (const said of [...says, ...LABEL.directions, ...LABEL.contents])
            expect(whole).toContain(words(said));
        },
      ),
    );
  });
});
