import type { ChannelName } from '../channels.ts';

/** What stands still and what moves, per channel. */
export type Stillness = 'steady' | 'settling' | 'rising' | 'falling' | 'missing';

/** A set point of a suction run. */
export type SuctionPoint = {
  readonly speedRevPerS: number;
  /** Absolute, at the inlet; null: suction fully open. */
  readonly suctionPressurePa: number | null;
};

/** Where a relief run stands: valve open, being closed, being opened again, done. */
export type ReliefPhase = 'open' | 'closing' | 'opening' | 'over';

/** What a set point of a delivery run stood at while it was held: means in SI. */
export type TakenPoint = {
  readonly speedRevPerS: number;
  readonly differentialPressurePa: number;
  readonly flowM3PerS: number;
  readonly oilTemperatureK: number;
};

/** Where a guided run is and what comes next. */
export type GuideState = {
  /** The next thing to do, as a sentence: 'Set 900 r/min and 3.0 bar; hold until all channels stand still.' */
  readonly sentence: string;
  /** What its steps are called: set points of a delivery run, phases of a dry start. */
  readonly stepsAre: 'points' | 'phases';
  readonly stepCount: number;
  readonly stepsDone: number;
  /** Set points of the present step; null when there are none to set. */
  readonly target: {
    readonly speedRevPerS: number;
    readonly deliveryGaugePressurePa: number | null;
    /** Absolute, at the inlet; null or absent: suction open. */
    readonly suctionPressurePa?: number | null;
  } | null;
  readonly stillness: Readonly<Partial<Record<ChannelName, Stillness>>>;
  readonly isFinished: boolean;
  /** Set points of a delivery run that were taken, oldest first; absent: another kind of run. */
  readonly taken?: readonly TakenPoint[];
  /** How long the pump has turned dry, and how long it may; absent: it does not turn dry [s]. */
  readonly dryTurning?: { readonly turnedS: number; readonly longestS: number };
};
