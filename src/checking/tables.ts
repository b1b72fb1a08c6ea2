import type {
  AdditiveEffects,
  EthanolTable,
  IntakeLimits,
  LegalLimits,
  Levels,
  Questions,
} from '../folder/schema/reference.ts';

/** The tables that every check needs, read once for however many people. */
export interface CheckTables {
  readonly levels: Levels;
  readonly questions: Questions;
  readonly uses: ReadonlySet<string>;
  readonly ethanol: EthanolTable | null;
  readonly intake: IntakeLimits;
  readonly effects: AdditiveEffects;
  readonly legal: LegalLimits;
}
