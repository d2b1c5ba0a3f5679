import type { Uncertain } from '../../uncertainty/source.ts';

/** A piece of suction pipe with what is not known exactly of it. */
export type UncertainPiece = {
  readonly boreM: Uncertain;
  readonly lengthM: Uncertain;
  readonly riseM: Uncertain;
  readonly fittingsLossCoefficient: number;
};

export type UncertainPipe = {
  readonly submergedLengthM: Uncertain;
  readonly strainerLossCoefficient: number;
  readonly pieces: readonly UncertainPiece[];
  readonly hasFootValve: boolean;
};

/** Where a dry start happens. */
export type StartSurroundings = {
  /** Barometer. */
  readonly atmospherePa: Uncertain;
  readonly densityKgPerM3: Uncertain;
  readonly dynamicViscosityPaS: Uncertain;
  readonly pipe: UncertainPipe;
};

/** A start that was measured, as the fit takes it; times since a moment before the motor start, when all was at rest. */
export type MeasuredStart = {
  /** Names its own sources. */
  readonly id: string;
  /** 'lift': against its open pipe; 'blanked': with the suction shut at the pump's flange, no oil taken. */
  readonly kind: 'lift' | 'blanked';
  readonly motorStartS: number;
  /** Of each mean, rising; a negative one: at rest. None after oil may have come to the pump. */
  readonly timesS: readonly number[];
  /** Absolute, means of a few readings, with their sensitivities to the channel's errors. */
  readonly pressuresPa: readonly Uncertain[];
  /** Scatter of each mean, without the calibration. */
  readonly standardDeviationsPa: readonly number[];
  readonly suctionLagS: number;
  readonly speedRevPerS: (elapsedS: number) => number;
  readonly runningRevPerS: number;
  /** How well speed and suction are tied to each other in time. */
  readonly timingStandardUncertaintyS: number;
  readonly surroundings: StartSurroundings;
};

/** The dead volume as it was stated or assumed, the same in every start. */
export type StatedDeadVolume = {
  readonly valueM3: number;
  readonly relativeStandardUncertainty: number;
};
