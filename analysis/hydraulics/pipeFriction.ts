import { colebrookFrictionFactor } from './frictionFactor.ts';

/** Up to here pipe flow stays laminar [1]. */
const LAMINAR_UP_TO = 2300;

/** From here on it is turbulent; between the two it may be either [1]. */
const TURBULENT_FROM = 4000;

type FlowRegime = 'at rest' | 'laminar' | 'transitional' | 'turbulent';

/** A straight round pipe with its fittings. */
export type Pipe = {
  readonly boreM: number;
  readonly lengthM: number;
  /** Height of the wall's roughness: drawn tube 1.5 µm, commercial steel 45 µm [m]. */
  readonly roughnessM: number;
  /** Σ K of bends, valves, entry and exit, referred to the speed in this bore [1]. */
  readonly fittingsLossCoefficient: number;
};

export type PipeFluid = { readonly dynamicViscosityPaS: number; readonly densityKgPerM3: number };

export type PipeDrop = {
  /** Friction and fittings together, with the sign of the flow [Pa]. */
  readonly pressureDropPa: number;
  readonly frictionDropPa: number;
  readonly fittingsDropPa: number;
  readonly meanSpeedMPerS: number;
  readonly reynoldsNumber: number;
  readonly regime: FlowRegime;
};

/**
 * Pressure drop of laminar flow in a round pipe: Δp = 128 µ L Q/(π d⁴); holds below a Reynolds number of 2300.
 *
 * @param bore - bore and length, > 0 [m]
 * @param dynamicViscosityPaS - of the oil, > 0 [Pa s]
 * @param flowM3PerS - any sign [m³/s]
 * @returns pressure drop with the sign of the flow [Pa]
 *
 * Source: Hagen (1839), Poiseuille (1840).
 */
export function laminarPipeDrop(
  bore: Pick<Pipe, 'boreM' | 'lengthM'>,
  dynamicViscosityPaS: number,
  flowM3PerS: number,
): number {
  return (128 * dynamicViscosityPaS * bore.lengthM * flowM3PerS) / (Math.PI * bore.boreM ** 4);
}

function regimeOf(reynoldsNumber: number): FlowRegime {
  if (reynoldsNumber === 0) return 'at rest';
  if (reynoldsNumber <= LAMINAR_UP_TO) return 'laminar';
  return reynoldsNumber < TURBULENT_FROM ? 'transitional' : 'turbulent';
}

function requirePipe(pipe: Pipe, fluid: PipeFluid, flowM3PerS: number): void {
  for (const [name, value] of [
    ['pipe.boreM', pipe.boreM],
    ['pipe.lengthM', pipe.lengthM],
    ['fluid.dynamicViscosityPaS', fluid.dynamicViscosityPaS],
    ['fluid.densityKgPerM3', fluid.densityKgPerM3],
  ] as const) {
    if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name}: ${value} is not a number above zero`);
  }
  for (const name of ['roughnessM', 'fittingsLossCoefficient'] as const) {
    const value = pipe[name];
    if (!(Number.isFinite(value) && value >= 0)) throw new RangeError(`pipe.${name}: ${value}, expected zero or more`);
  }
  if (!Number.isFinite(flowM3PerS)) throw new RangeError(`flowM3PerS: ${flowM3PerS} is not a finite number`);
}

/**
 * Pressure drop of a pipe with its fittings, Δp = (f L/d + Σ K) ρ v²/2: f = 64/Re up to Re = 2300 (fully developed: the
 * entry length is not counted), after Colebrook beyond. Between 2300 and 4000 the flow may be either; the turbulent drop,
 * the larger, is given and the regime says 'transitional'. Height is not in it.
 *
 * @param pipe - bore, length, roughness [m] and Σ K [1]
 * @param fluid - dynamic viscosity and density [Pa s, kg/m³]
 * @param flowM3PerS - any sign [m³/s]
 * @returns drops with the sign of the flow [Pa], mean speed [m/s], Reynolds number [1] and regime [-]
 * @throws RangeError if an input is not finite or outside its range
 *
 * Source: Darcy and Weisbach; Hagen and Poiseuille; Colebrook (1939).
 */
export function pipeDrop(pipe: Pipe, fluid: PipeFluid, flowM3PerS: number): PipeDrop {
  requirePipe(pipe, fluid, flowM3PerS);
  const meanSpeedMPerS = (4 * flowM3PerS) / (Math.PI * pipe.boreM ** 2);
  const reynoldsNumber = (fluid.densityKgPerM3 * Math.abs(meanSpeedMPerS) * pipe.boreM) / fluid.dynamicViscosityPaS;
  const regime = regimeOf(reynoldsNumber);
  const dynamicPressurePa = (Math.sign(flowM3PerS) * fluid.densityKgPerM3 * meanSpeedMPerS ** 2) / 2;
  const frictionDropPa =
    reynoldsNumber <= LAMINAR_UP_TO
      ? laminarPipeDrop(pipe, fluid.dynamicViscosityPaS, flowM3PerS)
      : colebrookFrictionFactor(reynoldsNumber, pipe.roughnessM / pipe.boreM) *
        (pipe.lengthM / pipe.boreM) *
        dynamicPressurePa;
  const fittingsDropPa = pipe.fittingsLossCoefficient * dynamicPressurePa;
  return {
    pressureDropPa: frictionDropPa + fittingsDropPa,
    frictionDropPa,
    fittingsDropPa,
    meanSpeedMPerS,
    reynoldsNumber,
    regime,
  };
}
