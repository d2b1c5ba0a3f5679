import { scatterSourceId } from '../delivery/fitSlip.ts';
import { oilDensity } from '../oil/density.ts';
import { kinematicViscosity } from '../oil/viscosity.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';

/** A value moved by the errors of a trial: value + Σ sensitivity × error. */
type Moved = (errors: Float64Array) => number;

/** One hold in a trial. */
export type PerturbedHold = {
  readonly speedRevPerS: Moved;
  readonly differentialPressurePa: Moved;
  readonly inletFlowM3PerS: Moved;
  readonly oilState: MovedOil;
};

/** Viscosity and density in a trial; `at` sets both, read them before the next call [Pa s, kg/m³]. */
type MovedOil = {
  dynamicViscosityPaS: number;
  densityKgPerM3: number;
  readonly at: (errors: Float64Array) => void;
};

/** Where each source stands among the errors of a trial. */
export type SourceOrder = ReadonlyMap<string, number>;

export function sourceOrder(sources: readonly Source[]): SourceOrder {
  return new Map(sources.map(({ id }, index) => [id, index]));
}

/**
 * A value as a function of the errors of a trial.
 *
 * @param uncertain - value with its sensitivities [any unit]
 * @param order - place of each source among the errors [-]
 * @returns function from errors to the moved value [unit of the value]
 * @throws RangeError if a source has no place
 */
export function movedBy(uncertain: Uncertain, order: SourceOrder): Moved {
  const { value, sensitivities } = uncertain;
  const entries = Object.entries(sensitivities).filter(([, by]) => by !== 0);
  const places = Int32Array.from(entries, ([id]) => {
    const place = order.get(id);
    if (place === undefined) throw new RangeError(`sources: none is called ${id}`);
    return place;
  });
  const slopes = Float64Array.from(entries, ([, by]) => by);
  return (errors) => {
    let moved = value;
    for (let index = 0; index < places.length; index += 1) {
      moved += (slopes[index] ?? 0) * (errors[places[index] ?? 0] ?? 0);
    }
    return moved;
  };
}

function without({ value, sensitivities }: Uncertain, ids: ReadonlySet<string>): Uncertain {
  return { value, sensitivities: Object.fromEntries(Object.entries(sensitivities).filter(([id]) => !ids.has(id))) };
}

/**
 * Viscosity and density of a hold in a trial: the oil's own law at the moved temperature, relative to the law at the
 * hold's mean temperature, times the hold's values and one plus the oil's own relative errors.
 *
 * @param hold - temperature, viscosity and density with their sensitivities [K, Pa s, kg/m³]
 * @param oil - of the run [-]
 * @param order - place of each source among the errors [-]
 * @returns viscosity and density by trial [Pa s, kg/m³]
 * @throws RangeError if the temperature of the hold is not one an oil can have
 *
 * Source: ASTM D341, API MPMS 11.1, as in the oil's own functions: no straight line stands in for them here.
 */
function movedOil(
  hold: Pick<HoldState, 'oilTemperatureK' | 'dynamicViscosityPaS' | 'densityKgPerM3'>,
  oil: OilRecord,
  order: SourceOrder,
): MovedOil {
  const ofTemperature = new Set(Object.keys(hold.oilTemperatureK.sensitivities));
  const temperature = movedBy(hold.oilTemperatureK, order);
  // What does not come by way of the temperature: the oil's own errors.
  const viscosity = movedBy(without(hold.dynamicViscosityPaS, ofTemperature), order);
  const density = movedBy(without(hold.densityKgPerM3, ofTemperature), order);
  const nuM2PerS = (temperatureK: number): number => kinematicViscosity(oil.lower, oil.upper, temperatureK);
  const rhoKgPerM3 = (temperatureK: number): number => oilDensity(oil.densityAt15CKgPerM3, temperatureK);
  const meanK = hold.oilTemperatureK.value;
  const meanRho = rhoKgPerM3(meanK);
  const meanMu = nuM2PerS(meanK) * meanRho;
  const moved: MovedOil = {
    dynamicViscosityPaS: hold.dynamicViscosityPaS.value,
    densityKgPerM3: hold.densityKgPerM3.value,
    at: (errors) => {
      const temperatureK = temperature(errors);
      const rho = rhoKgPerM3(temperatureK);
      moved.densityKgPerM3 = density(errors) * (rho / meanRho);
      moved.dynamicViscosityPaS = viscosity(errors) * ((nuM2PerS(temperatureK) * rho) / meanMu);
    },
  };
  return moved;
}

/** One hold as a function of the errors of a trial. */
export function perturbedHold(hold: HoldState, oil: OilRecord, order: SourceOrder): PerturbedHold {
  const scatterId = scatterSourceId(hold);
  const { value, sensitivities } = hold.inletFlowM3PerS;
  // The scatter about the law that the fit found is one more error of the flow.
  const scattered = order.has(scatterId) ? { ...sensitivities, [scatterId]: 1 } : sensitivities;
  return {
    speedRevPerS: movedBy(hold.speedRevPerS, order),
    differentialPressurePa: movedBy(hold.differentialPressurePa, order),
    inletFlowM3PerS: movedBy({ value, sensitivities: scattered }, order),
    oilState: movedOil(hold, oil, order),
  };
}
