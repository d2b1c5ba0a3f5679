import type { OilRecord } from '../records/oilRecord.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { oilState } from './oilState.ts';

/** Step over which viscosity and density are differentiated by temperature [K]. */
const STEP_K = 0.1;

/** The oil's own errors as named sources, relative and common to all temperatures. */
export function oilSources(oil: OilRecord): readonly Source[] {
  const common = { kind: 'calibration', degreesOfFreedom: null, pooledAs: null } as const;
  return [
    {
      ...common,
      id: 'oil.viscosity',
      label: oil.viscosityBasis === 'measured' ? 'oil viscosity, measured' : 'oil viscosity, grade on the can',
      standardUncertainty: oil.viscosityRelativeStandardUncertainty,
      shape: oil.viscosityBasis === 'measured' ? 'normal' : 'rectangular',
    },
    {
      ...common,
      id: 'oil.density',
      label: 'oil density',
      standardUncertainty: oil.densityRelativeStandardUncertainty,
      shape: 'normal',
    },
  ];
}

/**
 * Viscosity and density at an uncertain temperature, with sensitivities to the temperature's sources and to
 * `oil.viscosity` and `oil.density`.
 *
 * @param oil - the oil record [-]
 * @param temperatureK - temperature of the oil, with its sensitivities [K]
 * @returns dynamic viscosity and density [Pa s, kg/m³]
 * @throws RangeError if the temperature is not one an oil can have
 */
export function oilStateAt(
  oil: OilRecord,
  temperatureK: Uncertain,
): { readonly dynamicViscosityPaS: Uncertain; readonly densityKgPerM3: Uncertain } {
  const at = oilState(oil, temperatureK.value);
  const cooler = oilState(oil, temperatureK.value - STEP_K);
  const hotter = oilState(oil, temperatureK.value + STEP_K);
  const bySource = (value: number, derivativePerK: number, id: string): Uncertain =>
    combine(value, [
      { input: temperatureK, derivative: derivativePerK },
      { input: { value: 0, sensitivities: { [id]: value } }, derivative: 1 },
    ]);
  return {
    dynamicViscosityPaS: bySource(
      at.dynamicViscosityPaS,
      (hotter.dynamicViscosityPaS - cooler.dynamicViscosityPaS) / (2 * STEP_K),
      'oil.viscosity',
    ),
    densityKgPerM3: bySource(
      at.densityKgPerM3,
      (hotter.densityKgPerM3 - cooler.densityKgPerM3) / (2 * STEP_K),
      'oil.density',
    ),
  };
}
