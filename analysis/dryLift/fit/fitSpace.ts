import type { Source, SourceTable, Uncertain } from '../../uncertainty/source.ts';
import type { DryPump, DryRunning } from '../model/dryPump.ts';
import { errorDirections } from './errorDirections.ts';
import type { MeasuredStart, StartSurroundings, StatedDeadVolume } from './measuredStartTypes.ts';
import { exponentAt, PUMP_RANGES, withinRange } from './pumpRanges.ts';

/** What one who knows the pump may take as known of it; what is left out is fitted within its range. */
type KnownPump = {
  readonly carryOverShare?: number;
  readonly entryLoss?: number;
  readonly exponent?: number;
};

export type FitProblem = {
  readonly starts: readonly MeasuredStart[];
  /** V_i, for gas. */
  readonly capacityM3PerRev: Uncertain;
  /** Speed that is, over speed that was read: its calibration [1]. */
  readonly speedScale: Uncertain;
  readonly deadVolume: StatedDeadVolume;
  readonly sources: SourceTable;
  /** Whether the gap constant may change during a start. */
  readonly mayGapChange: boolean;
  readonly mostIterations: number;
  /** Unknowns of the pump that are taken as known, for one who knows them; null: fitted within their ranges. */
  readonly known: KnownPump | null;
};

/** One unknown of the fit: where it is expected before any reading, and what that expectation rests on. */
type Unknown = {
  readonly name: string;
  readonly expected: number;
  /** Of the expectation. */
  readonly standardDeviation: number;
  /** ∂expected/∂source, by source id. */
  readonly perSource: Readonly<Record<string, number>>;
  /** Step of its differences. */
  readonly step: number;
  /** How the residuals depend on it: bent, nearly straight, or straight through what was read and not through the model. */
  readonly acts: 'bent' | 'straight' | 'on readings';
};

export type FitSpace = {
  readonly unknowns: readonly Unknown[];
  readonly isEntryLossKnown: boolean;
  /** Sources that the fit adds: ranges of the pump, timing of each start. */
  readonly ownSources: readonly Source[];
  readonly pump: (parameters: readonly number[]) => DryPump;
  readonly exponent: (parameters: readonly number[]) => number;
  readonly deadVolumeM3: (parameters: readonly number[]) => number;
  /** What an unknown's expectation is of: the dead volume itself, and of all others the unknown. */
  readonly expectable: (parameters: readonly number[], index: number) => number;
  /** An input as the parameters have it; its stated value where it is none of the fit's. */
  readonly inputAt: (input: Uncertain, parameters: readonly number[]) => number;
  readonly timingS: (start: MeasuredStart, parameters: readonly number[]) => number;
  /** Pump and air where a start happened, at a speed course as read. */
  readonly running: (
    surroundings: Pick<StartSurroundings, 'atmospherePa'>,
    speedRevPerS: (elapsedS: number) => number,
    parameters: readonly number[],
  ) => DryRunning;
};

/** ln of leak-back over p_atm² − p², at the lowest pressure that was read. */
export const LOG_LEAK = 0;
/** ln of dead volume over exponent, in units of the exponent's middle: how fast a closed volume empties tells only the two together. */
export const LOG_DEAD_VOLUME = 1;
const CARRY_OVER = 2;
export const ENTRY_LOSS = 3;
const EXPONENT = 4;
export const GAP_CHANGE_RATIO = 5;
const GAP_CHANGE_TIME = 6;

function ownSource(
  id: string,
  label: string,
  standardUncertainty: number,
  kind: Source['kind'] = 'calibration',
): Source {
  return { id, label, kind, standardUncertainty, degreesOfFreedom: null, shape: 'normal', pooledAs: null };
}

/** Inputs of a start that are single numbers. */
function inputsOf({ surroundings }: MeasuredStart): readonly Uncertain[] {
  const { atmospherePa, densityKgPerM3, dynamicViscosityPaS, pipe } = surroundings;
  const pieces = pipe.pieces.flatMap(({ boreM, lengthM, riseM }) => [boreM, lengthM, riseM]);
  return [atmospherePa, densityKgPerM3, dynamicViscosityPaS, pipe.submergedLengthM, ...pieces];
}

/**
 * (p_atm² − p²)/p_atm² at the lowest pressure of all starts. Leak-back is fitted as G/(p_atm² − p²) there, where the
 * readings tell it best: gap constant and entry loss apart would lie in one bent valley.
 */
function deepestDriveShare(starts: readonly MeasuredStart[]): number {
  const shares = starts.map(({ pressuresPa, surroundings }) => {
    const lowestPa = Math.min(...pressuresPa.map(({ value }) => value));
    return 1 - (Math.max(0, lowestPa) / surroundings.atmospherePa.value) ** 2;
  });
  return Math.min(1, Math.max(0.01, ...shares));
}

/**
 * The unknowns of a fit: the pump's own, the timing of each start, and one for every error of what was measured or stated.
 * Each has an expectation; so an error that the readings themselves reveal, such as an offset at rest, is taken out, and
 * one that they do not stays in the interval.
 *
 * @param problem - starts, capacity, dead volume, sources [SI]
 * @returns the unknowns and what they mean [SI]
 * @throws RangeError if an input is sensitive to a source that is not in the table
 *
 * Source: least squares with prior knowledge of the parameters, e.g. Tarantola, Inverse Problem Theory (2005), 3.2.
 */
export function fitSpace(problem: FitProblem): FitSpace {
  const { starts, capacityM3PerRev, speedScale, deadVolume, known } = problem;
  const first = starts[0];
  if (first === undefined) throw new RangeError('starts: none given');
  const ranges = PUMP_RANGES;
  const firstSweptM3PerS = capacityM3PerRev.value * first.runningRevPerS;
  const middleGap = (ranges.relativeLeak.middle * firstSweptM3PerS) / first.surroundings.atmospherePa.value;

  const unknowns: Unknown[] = [];
  const ownSources: Source[] = [];
  const add = (
    name: string,
    source: Source,
    {
      expected = 0,
      standardDeviation = 1,
      step = 0.05,
      acts = 'bent',
    }: Partial<Omit<Unknown, 'name' | 'perSource'>> = {},
  ): void => {
    ownSources.push(source);
    unknowns.push({ name, expected, standardDeviation, step, acts, perSource: { [source.id]: 1 } });
  };
  const { logStandardDeviation: leakDeviation } = ranges.relativeLeak;
  add('leak-back', ownSource('dryPump.leakRange', 'range of leak-back', leakDeviation), {
    expected: Math.log(middleGap),
    standardDeviation: leakDeviation,
    step: 0.03,
  });
  const dead = deadVolume.relativeStandardUncertainty;
  add('dead volume', ownSource('setUp.deadVolume', 'dead volume, stated', dead), {
    expected: Math.log(deadVolume.valueM3),
    standardDeviation: dead,
    step: 0.03,
  });
  add('carry-over', ownSource('dryPump.carryOver', 'range of carry-over', 1));
  add('entry loss', ownSource('dryPump.entryLoss', 'range of entry loss', 1));
  add('exponent', ownSource('dryPump.exponent', 'exponent of the gas, 1 to 1.4', 1));
  if (problem.mayGapChange) {
    add('gap change', ownSource('dryPump.gapChange', 'range of a change of the gap', 1));
    add('time of gap change', ownSource('dryPump.gapChangeTime', 'time of a change of the gap', 1));
  }
  const timingIndex = new Map<MeasuredStart, number>();
  for (const start of starts) {
    timingIndex.set(start, unknowns.length);
    const deviation = start.timingStandardUncertaintyS;
    add(
      `timing of ${start.id}`,
      ownSource(`${start.id}.timing`, 'speed against suction in time', deviation, 'random'),
      {
        standardDeviation: deviation,
        step: Math.max(1e-4, deviation / 4),
        acts: 'straight',
      },
    );
  }
  const firstError = unknowns.length;
  const errors = errorDirections(
    [capacityM3PerRev, speedScale, ...starts.flatMap(inputsOf)],
    starts.map(({ pressuresPa }) => pressuresPa),
    problem.sources,
  );
  for (const { perSource, actsOnRowsOnly } of errors.directions) {
    const name = Object.keys(perSource).join(' + ');
    const acts = actsOnRowsOnly ? 'on readings' : 'straight';
    unknowns.push({ name, expected: 0, standardDeviation: 1, step: 0.3, acts, perSource });
  }

  const at = (parameters: readonly number[], index: number): number => parameters[index] ?? Number.NaN;
  const inputAt = (input: Uncertain, parameters: readonly number[]): number => {
    let value = input.value;
    for (const [direction, gain] of errors.gainsOf(input)) value += gain * at(parameters, firstError + direction);
    return value;
  };
  const driveShare = deepestDriveShare(starts);
  const pump = (parameters: readonly number[]): DryPump => {
    const entryLoss = known?.entryLoss ?? withinRange(ranges.entryLoss, at(parameters, ENTRY_LOSS));
    const gap = (Math.exp(at(parameters, LOG_LEAK)) * (1 + Math.sqrt(1 + 4 * entryLoss * driveShare))) / 2;
    return {
      capacityM3PerRev: inputAt(capacityM3PerRev, parameters) * inputAt(speedScale, parameters),
      gapConstantM3PerSPerPa: gap,
      gapChange: problem.mayGapChange
        ? {
            startRatio: withinRange(ranges.gapChangeRatio, at(parameters, GAP_CHANGE_RATIO)),
            timeConstantS: withinRange(ranges.gapChangeTimeS, at(parameters, GAP_CHANGE_TIME)),
          }
        : null,
      entryLossS2PerM6: entryLoss / (gap * first.surroundings.atmospherePa.value) ** 2,
      carryOverShare: known?.carryOverShare ?? withinRange(ranges.carryOver, at(parameters, CARRY_OVER)),
      shaftLeakM3PerSPerPa: 0,
    };
  };
  const exponent = (parameters: readonly number[]): number => known?.exponent ?? exponentAt(at(parameters, EXPONENT));
  const logDeadVolume = (parameters: readonly number[]): number =>
    at(parameters, LOG_DEAD_VOLUME) + Math.log(exponent(parameters) / ranges.exponent.middle);
  return {
    unknowns,
    isEntryLossKnown: known?.entryLoss !== undefined,
    ownSources,
    pump,
    exponent,
    deadVolumeM3: (parameters) => Math.exp(logDeadVolume(parameters)),
    expectable: (parameters, index) => (index === LOG_DEAD_VOLUME ? logDeadVolume(parameters) : at(parameters, index)),
    inputAt,
    timingS: (start, parameters) => at(parameters, timingIndex.get(start) ?? -1),
    running: ({ atmospherePa }, speedRevPerS, parameters) => {
      const airPa = inputAt(atmospherePa, parameters);
      return {
        pump: pump(parameters),
        speedRevPerS,
        atmospherePa: airPa,
        deliveryPressurePa: airPa,
        polytropicExponent: exponent(parameters),
      };
    },
  };
}
