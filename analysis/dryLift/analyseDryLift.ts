import { mean } from 'simple-statistics';
import { oilState } from '../oil/oilState.ts';
import type { Outcome } from '../outcome.ts';
import { goodValues, type Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftRefusal, DryLiftResult, Priming } from '../result.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../units.ts';
import { type FoundPriming, findPriming } from './findPriming.ts';
import { type SuctionHistory, suctionHistory } from './suctionHistory.ts';

/** What a dry start yields before it is stated. */
export type DryLiftAnalysis = {
  readonly found: Outcome<FoundPriming, DryLiftRefusal>;
  readonly suction: SuctionHistory | null;
  readonly oilDensityKgPerM3: number;
  readonly sources: readonly Source[];
};

/** Oil in the pipe stands at the temperature of the inlet channel; 20 °C where the bench has none. */
const UNMEASURED_OIL_TEMPERATURE_K = 293.15;

function meanOilTemperatureK({ channels: { oilTemperature } }: Readings): number {
  const good = oilTemperature === undefined ? [] : goodValues(oilTemperature);
  return good.length === 0 ? UNMEASURED_OIL_TEMPERATURE_K : mean(good);
}

/**
 * Reads one dry start: motor start, arrival of oil, how far the suction fell.
 *
 * @param run - the run record: bench, oil, lift, barometer [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolumeM3PerRev - V_g of the pump [m³/rev]
 * @returns priming or why it cannot be told, and the suction's history [-]
 */
export function analyseDryLift(run: RunRecord, readings: Readings, sweptVolumeM3PerRev: number): DryLiftAnalysis {
  const found = findPriming(readings, run.bench, sweptVolumeM3PerRev, run.setUp.deliveryLineVolumeM3);
  const barometerPa = run.setUp.barometerPa.value;
  const lastS = readings.elapsedS.at(-1) ?? 0;
  const suction = found.ok
    ? suctionHistory(
        readings,
        run.bench,
        found.value.motorStartS,
        found.value.arrival.primed ? found.value.arrival.sustainedDeliveryS : lastS,
        barometerPa,
      )
    : null;
  return {
    found,
    suction,
    oilDensityKgPerM3: oilState(run.oil, meanOilTemperatureK(readings)).densityKgPerM3,
    sources: found.ok ? found.value.sources : [],
  };
}

function statedPriming(found: FoundPriming, suction: SuctionHistory | null, state: (of: Uncertain) => Stated): Priming {
  const { arrival, motorStartS } = found;
  if (!arrival.primed) return { primed: false, motorStartS, watchedForS: arrival.watchedForS };
  return {
    primed: true,
    primingTimeS: state(arrival.primingTimeS),
    motorStartS,
    oilAtInletS: suction?.oilAtInletS ?? null,
    sustainedDeliveryS: arrival.sustainedDeliveryS,
  };
}

/** The dry start in numbers that can be printed. */
export function statedDryLift(
  { found, suction, oilDensityKgPerM3 }: DryLiftAnalysis,
  run: RunRecord,
  state: (uncertain: Uncertain) => Stated,
): DryLiftResult {
  const { barometerPa, staticLiftM, wetness } = run.setUp;
  return {
    priming: found.ok ? { ok: true, value: statedPriming(found.value, suction, state) } : found,
    speedRevPerS: found.ok ? found.value.speedRevPerS : 0,
    staticLiftM: staticLiftM.value,
    wetness,
    barometerPa: barometerPa.value,
    oilDensityKgPerM3,
    lowestSuctionPressurePa: suction === null ? null : state(suction.lowestPa),
    columnPressurePa: barometerPa.value - oilDensityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * staticLiftM.value,
  };
}
