import { type HoldPower, holdPower } from '../efficiency/holdPower.ts';
import type { HoldResult } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import type { SlipFit } from './fitSlip.ts';
import { volumetricEfficiency } from './volumetricEfficiency.ts';

type State = (uncertain: Uncertain) => Stated;

function statedOrNull(value: Uncertain | null, state: State): Stated | null {
  return value === null ? null : state(value);
}

function efficienciesOf(power: HoldPower | null, state: State) {
  const shaft = power?.shaft?.ok ? power.shaft.value : null;
  const motor = power?.motor?.ok ? power.motor.value : null;
  return {
    hydraulicPowerW: power === null ? null : state(power.hydraulicPowerW),
    hydromechanicalEfficiency: shaft === null ? null : state(shaft.hydromechanicalEfficiency),
    totalEfficiency: shaft === null ? null : state(shaft.totalEfficiency),
    overallEfficiency: motor === null ? null : state(motor.overallEfficiency),
  };
}

/** What the fit says of each of its holds, by hold number. */
function fitFigures(fit: SlipFit, fitted: readonly HoldState[]) {
  return new Map(
    fitted.map((hold, index) => {
      const influence = fit.influences[index];
      return [
        hold.number,
        {
          residualFlowM3PerS: fit.residualsM3PerS[index] ?? null,
          leverage: influence?.leverage ?? null,
          studentisedResidual: influence?.studentisedResidual ?? null,
          deletedResidualM3PerS: influence?.deletedResidualM3PerS ?? null,
        },
      ] as const;
    }),
  );
}

const NOT_IN_FIT = {
  residualFlowM3PerS: null,
  leverage: null,
  studentisedResidual: null,
  deletedResidualM3PerS: null,
} as const;

/**
 * Holds in numbers that can be printed.
 *
 * @param holds - all holds of a run [n holds]
 * @param fit - law fitted to those that were not left out; null: none [-]
 * @param sweptVolume - V_g [m³/rev]
 * @param barometer - of the run [Pa]
 * @param state - states a value with the sources of the run [-]
 * @returns each value with its expanded uncertainty and budget [n holds]
 */
export function statedHolds(
  holds: readonly HoldState[],
  fit: SlipFit | null,
  sweptVolume: Uncertain,
  barometer: Uncertain,
  state: State,
): readonly HoldResult[] {
  const fitted = holds.filter(({ leftOut }) => leftOut === null);
  const figures = fit === null ? null : fitFigures(fit, fitted);
  return holds.map((hold): HoldResult => {
    const { flowM3PerS, speedRevPerS } = hold;
    const capacity = fit?.uncertain.derivedCapacityM3PerRev ?? null;
    const power = capacity === null ? null : holdPower(hold, capacity, barometer, null);
    return {
      number: hold.number,
      startS: hold.startS,
      endS: hold.endS,
      readingCount: hold.readingCount,
      effectiveReadingCount: hold.effectiveReadingCount,
      wildReadingCount: hold.wildReadingCount,
      leftOut: hold.leftOut,
      drifts: hold.drifts,
      speedRevPerS: state(speedRevPerS),
      suctionPressurePa: state(hold.suctionPressurePa),
      deliveryPressurePa: state(hold.deliveryPressurePa),
      differentialPressurePa: state(hold.differentialPressurePa),
      flowM3PerS: state(flowM3PerS),
      inletFlowM3PerS: state(hold.inletFlowM3PerS),
      oilTemperatureK: state(hold.oilTemperatureK),
      dynamicViscosityPaS: state(hold.dynamicViscosityPaS),
      densityKgPerM3: state(hold.densityKgPerM3),
      externalDrainM3PerS: statedOrNull(hold.externalDrainM3PerS, state),
      caseTemperatureK: statedOrNull(hold.caseTemperatureK, state),
      torqueNM: statedOrNull(hold.torqueNM, state),
      motorPowerW: statedOrNull(hold.motorPowerW, state),
      geometricEfficiency: state(volumetricEfficiency(flowM3PerS, sweptVolume, speedRevPerS)),
      derivedEfficiency: capacity === null ? null : state(volumetricEfficiency(flowM3PerS, capacity, speedRevPerS)),
      ...efficienciesOf(power, state),
      ...(figures?.get(hold.number) ?? NOT_IN_FIT),
    };
  });
}
