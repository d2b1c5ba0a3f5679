/** The shape of what the analysis yields; the schemas, of which the published JSON Schema is made, stand in resultSchema/. */
export { LAW_TERMS, type LawTerm } from './delivery/lawTerms.ts';
export type { AgainstTheory } from './resultSchema/againstTheorySchema.ts';
export type { Checks } from './resultSchema/checksSchema.ts';
export type { DryLiftResult, Priming } from './resultSchema/dryLiftSchema.ts';
export type { DutyOutlook } from './resultSchema/efficiencySchema.ts';
export type { ReliefResult, SuctionResult } from './resultSchema/furtherRunsSchema.ts';
export type { HoldResult } from './resultSchema/holdSchema.ts';
export type {
  DeliveryResult,
  DemandVerdict,
  Finding,
  Fitted,
  OutcomeWord,
  RunResult,
  Theory,
} from './resultSchema/runResultSchema.ts';
export type { SlipLaw } from './resultSchema/slipLawSchema.ts';

export type SlipFitRefusal =
  | { readonly code: 'NO_HOLDS'; readonly text: string }
  | { readonly code: 'TOO_FEW_HOLDS'; readonly got: number; readonly needed: number; readonly text: string }
  | { readonly code: 'PRESSURE_NOT_VARIED'; readonly spanPa: number; readonly neededPa: number; readonly text: string }
  | { readonly code: 'TERMS_NOT_SEPARABLE'; readonly text: string }
  | { readonly code: 'NOT_PHYSICAL'; readonly text: string };

export type DryLiftRefusal =
  | { readonly code: 'NO_MOTOR_START'; readonly text: string }
  | { readonly code: 'ALREADY_RUNNING'; readonly text: string }
  | { readonly code: 'FLOW_BEFORE_START'; readonly text: string }
  | { readonly code: 'ALREADY_WET'; readonly text: string }
  | { readonly code: 'OIL_TOO_EARLY'; readonly text: string }
  | { readonly code: 'CHANNEL_MISSING'; readonly channel: string; readonly text: string };
