import type { DryLiftEstimateResult } from '../resultSchema/dryLiftSchema.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import type { DryRunEstimate } from './estimateRun.ts';
import type { DryPumpFit } from './fit/dryPumpFit.ts';
import { GAP_CHANGE_RATIO, LOG_DEAD_VOLUME, LOG_LEAK } from './fit/fitSpace.ts';
import { deviationOf, type Interval, intervalOf, type OfParameters, onScale } from './fit/functionOfFit.ts';
import { PUMP_RANGES, withinRange } from './fit/pumpRanges.ts';

/** What the readings left of the range that an unknown had before them: less than this, and they told it [1]. */
const TOLD_SHARE = 0.5;

/** Interval of something positive, on a logarithmic scale. */
function positive(fit: DryPumpFit, of: OfParameters): Interval {
  return onScale(
    intervalOf(fit, (parameters) => Math.log(of(parameters))),
    Math.exp,
  );
}

function toldOf(fit: DryPumpFit, index: number): 'told' | 'from its range' {
  const { space } = fit.search;
  const before = space.unknowns[index]?.standardDeviation ?? 0;
  const after = deviationOf(fit, (parameters) => space.expectable(parameters, index));
  return after < TOLD_SHARE * before ? 'told' : 'from its range';
}

/** Leak-back, limit and the rest of an estimate in numbers that can be printed. */
export function statedEstimate(
  { fit, capacityBasis, starts, limits, machine }: DryRunEstimate,
  state: (uncertain: Uncertain) => Stated,
): DryLiftEstimateResult {
  const { search, gapChange, warnings } = fit;
  const { space } = search;
  const carryOver = space.unknowns.findIndex(({ name }) => name === 'carry-over');
  return {
    capacityBasis,
    gapConstantM3PerSPerPa: positive(fit, (parameters) => space.pump(parameters).gapConstantM3PerSPerPa),
    deadVolumeM3: positive(fit, space.deadVolumeM3),
    carryOverShare: positive(fit, (parameters) => space.pump(parameters).carryOverShare),
    gapChange: {
      verdict: gapChange,
      startRatio:
        gapChange === 'changes'
          ? positive(fit, (parameters) =>
              withinRange(PUMP_RANGES.gapChangeRatio, parameters[GAP_CHANGE_RATIO] ?? Number.NaN),
            )
          : null,
    },
    identified: {
      leakBack: toldOf(fit, LOG_LEAK),
      deadVolume: toldOf(fit, LOG_DEAD_VOLUME),
      carryOver: toldOf(fit, carryOver),
    },
    search: {
      hasConverged: search.hasConverged,
      iterations: search.iterations,
      startCount: search.startCount,
      readingCount: search.readingCount,
      noiseFactor: search.noiseFactor,
    },
    starts: starts.map(({ kind, motorStartS, speedRevPerS, fittedUntilS, course }) => ({
      kind,
      motorStartS,
      speedRevPerS,
      fittedUntilS,
      course,
    })),
    limits: limits.map(({ speedRevPerS, limitM, limitUncertainM, blankOffPressurePa }) => ({
      speedRevPerS,
      limitM,
      limitBudgetM: state(limitUncertainM),
      blankOffPressurePa,
    })),
    machine:
      machine === null || machine.ok
        ? machine
        : { ok: false, reason: { code: machine.reason.code, text: machine.reason.text } },
    warnings: warnings.map(({ code, text }) => ({ code, text })),
  };
}
