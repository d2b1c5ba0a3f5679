import type { LineCensus } from './readings.ts';
import type { Demand } from './records/dutyRecord.ts';
import type { RunKind } from './records/runRecord.ts';
import type { SourceTable, Uncertain } from './uncertainty/source.ts';
import type { Stated } from './uncertainty/stated.ts';

/** What the analysis of a run yields; result.json, the page and the certificate all show this and nothing else. */
export type RunResult = {
  readonly format: 'slipwright.result/1';
  readonly analysisVersion: string;
  readonly runId: string;
  readonly kind: RunKind;
  /** The journal itself says that a practice bench wrote it: whatever is filed is a specimen. */
  readonly isPractice: boolean;
  readonly census: LineCensus;
  /** What a reader must know of the run; a finding of severity 'unfit' bars a certificate. */
  readonly findings: readonly Finding[];
  /** Every source that a value below is sensitive to. */
  readonly sources: SourceTable;
  readonly theory: Theory;
  /** Null for a dry-lift run. */
  readonly delivery: DeliveryResult | null;
  /** Null for a delivery run. */
  readonly dryLift: DryLiftResult | null;
  readonly verdicts: readonly DemandVerdict[];
  readonly outcome: OutcomeWord;
};

export type OutcomeWord = 'pass' | 'fail' | 'not proven' | 'measured';

export type Finding = {
  readonly code: string;
  readonly severity: 'note' | 'warning' | 'unfit';
  /** What is wrong, what it means, what to do next: a sentence a fitter would say. */
  readonly text: string;
};

export type Theory = {
  readonly sweptVolumeM3PerRev: Stated;
  readonly sweptVolume: Uncertain;
  /** 'equal external gears, measured' or who stated it. */
  readonly basis: string;
  /** Ideal flow ripple, (max − min)/mean [1]; null where the type has none computed. */
  readonly flowRipple: number | null;
};

/** A hold: a stretch in which everything stood still long enough to be averaged. */
export type HoldResult = {
  /** Counted from 1. */
  readonly number: number;
  readonly startS: number;
  readonly endS: number;
  readonly readingCount: number;
  /** Independent readings behind the flow mean, from its autocorrelation. */
  readonly effectiveReadingCount: number;
  readonly speedRevPerS: Stated;
  readonly suctionPressurePa: Stated;
  readonly deliveryPressurePa: Stated;
  readonly differentialPressurePa: Stated;
  readonly flowM3PerS: Stated;
  readonly oilTemperatureK: Stated;
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
  /** q/(V_i n), ISO 4391; null where no law was fitted. */
  readonly derivedEfficiency: Stated | null;
  /** q/(V_g n): delivery against geometry. */
  readonly geometricEfficiency: Stated;
  /** Measured minus fitted flow; null where no law was fitted. */
  readonly residualFlowM3PerS: number | null;
};

/** Terms of q = V_i n − C_l Δp/µ − C_t √(2Δp/ρ) − C_np n Δp. */
export const LAW_TERMS = [
  'derivedCapacityM3PerRev',
  'laminarSlipM3',
  'orificeSlipM2',
  'speedPressureSlipM3PerPa',
] as const;
export type LawTerm = (typeof LAW_TERMS)[number];

export type SlipLaw = {
  /** The fitted coefficients; a term that the fit left out is exactly zero. */
  readonly coefficients: Readonly<Record<LawTerm, number>>;
  /** The same with the sensitivities of the full admissible model, from which every interval comes. */
  readonly uncertain: Readonly<Record<LawTerm, Uncertain>>;
  readonly stated: Readonly<Record<LawTerm, Stated>>;
  /** Terms that took part in the full model. */
  readonly terms: readonly LawTerm[];
  readonly holdCount: number;
  readonly residualDegreesOfFreedom: number;
  /** Weighted residual sum of squares over its degrees of freedom; about 1 when the law fits [1]. */
  readonly reducedChiSquare: number;
  /** Range of the holds; the law is not spoken outside it without saying so. */
  readonly range: {
    readonly speedRevPerS: readonly [number, number];
    readonly differentialPressurePa: readonly [number, number];
    readonly oilTemperatureK: readonly [number, number];
  };
};

export type SlipFitRefusal =
  | { readonly code: 'NO_HOLDS'; readonly text: string }
  | { readonly code: 'TOO_FEW_HOLDS'; readonly got: number; readonly needed: number; readonly text: string }
  | { readonly code: 'PRESSURE_NOT_VARIED'; readonly spanPa: number; readonly neededPa: number; readonly text: string }
  | { readonly code: 'TERMS_NOT_SEPARABLE'; readonly text: string }
  | { readonly code: 'NOT_PHYSICAL'; readonly text: string };

export type DeliveryResult = {
  readonly holds: readonly HoldResult[];
  readonly law:
    | { readonly ok: true; readonly value: SlipLaw }
    | { readonly ok: false; readonly reason: SlipFitRefusal };
  /** V_i / V_g; null without a law. */
  readonly capacityRatio: Stated | null;
};

/** No primingTimeS = -1, no null: the wrong state cannot be written. */
export type Priming =
  | {
      readonly primed: true;
      /** From motor start to sustained delivery at the outlet. */
      readonly primingTimeS: Stated;
      readonly motorStartS: number;
      /** Oil at the inlet: the suction pressure stops falling; null where the channel does not show it. */
      readonly oilAtInletS: number | null;
      readonly sustainedDeliveryS: number;
    }
  | { readonly primed: false; readonly motorStartS: number; readonly watchedForS: number };

export type DryLiftRefusal =
  | { readonly code: 'NO_MOTOR_START'; readonly text: string }
  | { readonly code: 'ALREADY_RUNNING'; readonly text: string }
  | { readonly code: 'FLOW_BEFORE_START'; readonly text: string }
  | { readonly code: 'CHANNEL_MISSING'; readonly channel: string; readonly text: string };

export type DryLiftResult = {
  readonly priming:
    | { readonly ok: true; readonly value: Priming }
    | { readonly ok: false; readonly reason: DryLiftRefusal };
  readonly speedRevPerS: number;
  readonly staticLiftM: number;
  readonly wetness: 'W0' | 'W1' | 'W2' | 'W3';
  readonly barometerPa: number;
  readonly oilDensityKgPerM3: number;
  /** Lowest suction pressure held for half a second after motor start (absolute). */
  readonly lowestSuctionPressurePa: Stated | null;
  /** Pressure at the inlet that the standing column asks for: p_atm − ρ g h (absolute). */
  readonly columnPressurePa: number;
};

export type DemandVerdict = {
  readonly demand: Demand;
  readonly verdict: OutcomeWord;
  /** This run can speak to the demand; where it cannot, the verdict is 'not proven' and another run may decide. */
  readonly speaks: boolean;
  /** The value held against the demand; null where there is none (no oil came: a verdict without a priming time). */
  readonly value: Stated | null;
  /** Probability that the demand is met; null without a value. */
  readonly conformityProbability: number | null;
  /** In words: what was compared with what, or why nothing was. */
  readonly reason: string;
};
