import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DeliveryResult, HoldResult, SlipLaw } from '../result.ts';
import { channelLabels, findHolds, leadAfterChangeS } from '../steady/findHolds.ts';
import { type HoldState, holdState, missingHoldChannels } from '../steady/holdState.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { fitSlip, type SlipFit } from './fitSlip.ts';
import { volumetricEfficiency } from './volumetricEfficiency.ts';

/** What a delivery run yields before it is stated: states, fit and every source they are sensitive to. */
export type DeliveryAnalysis = {
  readonly holds: readonly HoldState[];
  readonly fit: ReturnType<typeof fitSlip>;
  readonly capacityRatio: Uncertain | null;
  readonly sources: readonly Source[];
};

/**
 * From readings to slip law: finds the holds, averages them, fits.
 *
 * @param run - the run record: bench, oil, barometer, hold limits [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @returns holds, fit or refusal, V_i/V_g [-]
 */
export function analyseDelivery(run: RunRecord, readings: Readings, sweptVolume: Uncertain): DeliveryAnalysis {
  const missing = missingHoldChannels(readings);
  if (missing.length > 0) {
    const text = `The run has no channel for ${channelLabels(missing)}: holds cannot be judged without.`;
    return { holds: [], fit: { ok: false, reason: { code: 'NO_HOLDS', text } }, capacityRatio: null, sources: [] };
  }
  const barometerPa = run.setUp.barometerPa.value;
  const stretches = findHolds(readings, {
    limits: run.bench.holdLimits,
    barometerPa,
    leadS: leadAfterChangeS(run.bench.channels),
  });
  const holds = stretches.map((stretch, index) =>
    holdState(readings, stretch, index + 1, run.bench, run.oil, barometerPa),
  );
  const fit = fitSlip(holds);
  const capacity = fit.ok ? fit.value.uncertain.derivedCapacityM3PerRev : null;
  return {
    holds,
    fit,
    capacityRatio:
      capacity === null
        ? null
        : combine(capacity.value / sweptVolume.value, [
            { input: capacity, derivative: 1 / sweptVolume.value },
            { input: sweptVolume, derivative: -capacity.value / sweptVolume.value ** 2 },
          ]),
    sources: [...holds.flatMap((hold) => hold.sources), ...(fit.ok ? fit.value.sources : [])],
  };
}

/** The analysis in numbers that can be printed: every value with its expanded uncertainty and budget. */
export function statedDelivery(
  { holds, fit, capacityRatio }: DeliveryAnalysis,
  sweptVolume: Uncertain,
  state: (uncertain: Uncertain) => Stated,
): DeliveryResult {
  return {
    holds: holds.map((hold, index) => statedHold(hold, index, fit.ok ? fit.value : null, sweptVolume, state)),
    law: fit.ok ? { ok: true, value: statedLaw(fit.value, holds, state) } : fit,
    capacityRatio: capacityRatio === null ? null : state(capacityRatio),
  };
}

function statedHold(
  hold: HoldState,
  index: number,
  fit: SlipFit | null,
  sweptVolume: Uncertain,
  state: (uncertain: Uncertain) => Stated,
): HoldResult {
  const { flowM3PerS, speedRevPerS } = hold;
  return {
    number: hold.number,
    startS: hold.startS,
    endS: hold.endS,
    readingCount: hold.readingCount,
    effectiveReadingCount: hold.effectiveReadingCount,
    speedRevPerS: state(speedRevPerS),
    suctionPressurePa: state(hold.suctionPressurePa),
    deliveryPressurePa: state(hold.deliveryPressurePa),
    differentialPressurePa: state(hold.differentialPressurePa),
    flowM3PerS: state(flowM3PerS),
    oilTemperatureK: state(hold.oilTemperatureK),
    dynamicViscosityPaS: hold.dynamicViscosityPaS.value,
    densityKgPerM3: hold.densityKgPerM3.value,
    derivedEfficiency:
      fit === null
        ? null
        : state(volumetricEfficiency(flowM3PerS, fit.uncertain.derivedCapacityM3PerRev, speedRevPerS)),
    geometricEfficiency: state(volumetricEfficiency(flowM3PerS, sweptVolume, speedRevPerS)),
    residualFlowM3PerS: fit?.residualsM3PerS[index] ?? null,
  };
}

function statedLaw(fit: SlipFit, holds: readonly HoldState[], state: (uncertain: Uncertain) => Stated): SlipLaw {
  const { uncertain } = fit;
  const rangeOf = (value: (hold: HoldState) => Uncertain): readonly [number, number] => {
    const values = holds.map((hold) => value(hold).value);
    return [Math.min(...values), Math.max(...values)];
  };
  return {
    coefficients: fit.coefficients,
    uncertain,
    stated: {
      derivedCapacityM3PerRev: state(uncertain.derivedCapacityM3PerRev),
      laminarSlipM3: state(uncertain.laminarSlipM3),
      orificeSlipM2: state(uncertain.orificeSlipM2),
      speedPressureSlipM3PerPa: state(uncertain.speedPressureSlipM3PerPa),
    },
    terms: fit.terms,
    holdCount: holds.length,
    residualDegreesOfFreedom: fit.residualDegreesOfFreedom,
    reducedChiSquare: fit.reducedChiSquare,
    range: {
      speedRevPerS: rangeOf((hold) => hold.speedRevPerS),
      differentialPressurePa: rangeOf((hold) => hold.differentialPressurePa),
      oilTemperatureK: rangeOf((hold) => hold.oilTemperatureK),
    },
  };
}
