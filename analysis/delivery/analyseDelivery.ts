import { BAROMETER_SOURCE_ID } from '../calibration/channelSources.ts';
import { airCheck, restsOf } from '../notSlip/airCheck.ts';
import { driftCheck, withDrift } from '../notSlip/driftCheck.ts';
import { fillingCheck } from '../notSlip/fillingCheck.ts';
import { hysteresisCheck } from '../notSlip/hysteresisCheck.ts';
import { reliefBreak } from '../notSlip/reliefBreak.ts';
import { no, type Outcome } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { HoldExclusion, RunRecord } from '../records/runRecord.ts';
import type { SlipFitRefusal, SlipLaw } from '../result.ts';
import { applyExclusions } from '../steady/applyExclusions.ts';
import { channelLabels, findHolds, leadAfterChangeS } from '../steady/findHolds.ts';
import { type HoldState, holdState, type LeftOut, missingHoldChannels } from '../steady/holdState.ts';
import { combine, type Source, sourceTable, type Uncertain } from '../uncertainty/source.ts';
import { type DrainLaw, type DrainRefusal, fitDrain } from './drainLaw.ts';
import { fitSlip, type SlipFit } from './fitSlip.ts';

/** What is not slip, as the run shows it. */
export type DeliveryChecks = {
  readonly filling: ReturnType<typeof fillingCheck>;
  readonly relief: ReturnType<typeof reliefBreak>;
  readonly drift: ReturnType<typeof driftCheck>;
  readonly air: ReturnType<typeof airCheck>;
  readonly hysteresis: ReturnType<typeof hysteresisCheck>;
};

/** A fitted law with all that was checked beside it. */
export type FittedRun = {
  readonly fit: SlipFit;
  /** Of the holds in the fit. */
  readonly range: SlipLaw['range'];
  /** V_i/V_g. */
  readonly capacityRatio: Uncertain;
  /** Null: the bench reads no drain. */
  readonly drain: Outcome<DrainLaw, DrainRefusal> | null;
  readonly checks: DeliveryChecks;
};

/** What a delivery run yields before it is stated. */
export type DeliveryAnalysis = {
  /** All holds; those left out of the fit say why. */
  readonly holds: readonly HoldState[];
  readonly fitted: Outcome<FittedRun, SlipFitRefusal>;
  /** Of holds, fit, drain and drift, besides those handed in. */
  readonly sources: readonly Source[];
};

/**
 * The holds of a run, averaged.
 *
 * @param run - the run record: bench, oil, barometer, zero check [-]
 * @param readings - its readings [n readings, oldest first]
 * @returns averaged holds, oldest first; none where a channel is missing [-]
 */
export function averagedHolds(run: RunRecord, readings: Readings): readonly HoldState[] {
  if (missingHoldChannels(readings).length > 0) return [];
  const barometerPa = run.setUp.barometerPa.value;
  const search = {
    limits: run.bench.holdLimits,
    barometerPa,
    leadS: leadAfterChangeS(run.bench.channels),
  };
  return findHolds(readings, search).map((stretch, index) =>
    holdState(readings, stretch, index + 1, run.bench, run.oil, barometerPa, run.zeroCheck),
  );
}

function inFit(holds: readonly HoldState[]): readonly HoldState[] {
  return holds.filter(({ leftOut }) => leftOut === null);
}

function leaving(
  holds: readonly HoldState[],
  numbers: readonly number[],
  leftOut: LeftOut | null,
): readonly HoldState[] {
  return leftOut === null ? holds : holds.map((hold) => (numbers.includes(hold.number) ? { ...hold, leftOut } : hold));
}

function rangeOf(holds: readonly HoldState[]): SlipLaw['range'] {
  const span = (value: (hold: HoldState) => Uncertain): readonly [number, number] => {
    const values = holds.map((hold) => value(hold).value);
    return [Math.min(...values), Math.max(...values)];
  };
  return {
    speedRevPerS: span((hold) => hold.speedRevPerS),
    differentialPressurePa: span((hold) => hold.differentialPressurePa),
    oilTemperatureK: span((hold) => hold.oilTemperatureK),
  };
}

/** The barometer as a value with its source. */
export function barometerOf(run: RunRecord): Uncertain {
  return { value: run.setUp.barometerPa.value, sensitivities: { [BAROMETER_SOURCE_ID]: 1 } };
}

/**
 * From readings to slip law: finds the holds, averages them, takes out what a person took out and what is not slip, fits,
 * and fits once more with the drift of the run in its budget.
 *
 * @param run - the run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @param exclusions - what a person took out, in the order in which it was said [-]
 * @param base - sources of channels, oil, barometer and geometry [-]
 * @returns holds, law or refusal, checks [-]
 */
export function analyseDelivery(
  run: RunRecord,
  readings: Readings,
  sweptVolume: Uncertain,
  exclusions: readonly HoldExclusion[],
  base: readonly Source[],
): DeliveryAnalysis {
  const missing = missingHoldChannels(readings);
  if (missing.length > 0) {
    const text = `The run has no channel for ${channelLabels(missing)}: holds cannot be judged without.`;
    return { holds: [], fitted: no({ code: 'NO_HOLDS', text }), sources: [] };
  }
  const averaged = applyExclusions(averagedHolds(run, readings), exclusions);
  const holdSources = averaged.flatMap(({ sources }) => sources);
  const table = sourceTable([...base, ...holdSources]);
  const filling = fillingCheck(averaged, table);
  const filled =
    filling.read === 'sign' ? leaving(averaged, filling.numbers.holdNumbersBeyond, filling.numbers.leftOut) : averaged;
  const relief = reliefBreak(filled);
  const holds =
    relief.read === 'sign' ? leaving(filled, relief.numbers.holdNumbersBeyond, relief.numbers.leftOut) : filled;

  const first = fitSlip(inFit(holds));
  if (!first.ok) return { holds, fitted: first, sources: holdSources };
  const firstTable = sourceTable([...base, ...holdSources, ...first.value.sources]);
  const drift = driftCheck(holds, first.value.coefficients, firstTable);
  const drifting = drift.read === 'cannot tell' ? holds : withDrift(holds, drift.numbers);
  const driftSources = drift.read === 'cannot tell' ? [] : drift.numbers.sources;
  const again = drift.read === 'cannot tell' ? first : fitSlip(inFit(drifting));
  if (!again.ok) return { holds, fitted: again, sources: holdSources };
  const fit = again.value;
  const fitTable = sourceTable([...base, ...holdSources, ...driftSources, ...fit.sources]);
  const drain = drifting.some(({ externalDrainM3PerS }) => externalDrainM3PerS !== null)
    ? fitDrain(inFit(drifting))
    : null;
  const capacity = fit.uncertain.derivedCapacityM3PerRev;
  return {
    holds: drifting,
    fitted: {
      ok: true,
      value: {
        fit,
        range: rangeOf(inFit(drifting)),
        capacityRatio: combine(capacity.value / sweptVolume.value, [
          { input: capacity, derivative: 1 / sweptVolume.value },
          { input: sweptVolume, derivative: -capacity.value / sweptVolume.value ** 2 },
        ]),
        drain,
        checks: {
          filling,
          relief,
          drift,
          air: airCheck(drifting, restsOf(readings), fit.coefficients, fitTable),
          hysteresis: hysteresisCheck(drifting, fit.coefficients, fitTable),
        },
      },
    },
    sources: [...holdSources, ...driftSources, ...fit.sources, ...(drain?.ok ? drain.value.sources : [])],
  };
}
