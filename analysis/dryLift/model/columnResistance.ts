import { colebrookFrictionFactor } from '../../hydraulics/frictionFactor.ts';
import { laminarPipeDrop, type PipeFluid } from '../../hydraulics/pipeFriction.ts';
import { type PipeTable, type SegmentTable, surfaceSegment, wettedLengthM } from './suctionPipe.ts';

const LAMINAR_UP_TO = 2300;
const TURBULENT_FROM = 4000;

/** Friction of one metre of pipe and one unit of Σ K, as functions of the flow. */
type SegmentResistance = {
  readonly table: SegmentTable;
  readonly frictionPaPerM: (flowM3PerS: number) => number;
  /** Pressure of its velocity, with the sign of the flow. */
  readonly velocityHeadPa: (flowM3PerS: number) => number;
};

function segmentResistance(table: SegmentTable, fluid: PipeFluid): SegmentResistance {
  const { boreM, roughnessM } = table.segment;
  const laminarPaSPerM4 = laminarPipeDrop({ boreM, lengthM: 1 }, fluid.dynamicViscosityPaS, 1);
  const reynoldsPerFlow = (fluid.densityKgPerM3 * boreM) / (fluid.dynamicViscosityPaS * table.areaM2);
  const velocityHeadPa = (flowM3PerS: number): number =>
    (fluid.densityKgPerM3 * flowM3PerS * Math.abs(flowM3PerS)) / (2 * table.areaM2 ** 2);
  const frictionPaPerM = (flowM3PerS: number): number => {
    const reynoldsNumber = Math.abs(flowM3PerS) * reynoldsPerFlow;
    const laminarPa = laminarPaSPerM4 * flowM3PerS;
    if (!(reynoldsNumber > LAMINAR_UP_TO)) return laminarPa;
    const turbulentPa =
      (colebrookFrictionFactor(reynoldsNumber, roughnessM / boreM) / boreM) * velocityHeadPa(flowM3PerS);
    if (reynoldsNumber >= TURBULENT_FROM) return turbulentPa;
    // Between the two the flow may be either: a smooth rise from one law to the other, so that no column sticks at a step.
    const s = (reynoldsNumber - LAMINAR_UP_TO) / (TURBULENT_FROM - LAMINAR_UP_TO);
    const share = s * s * (3 - 2 * s);
    return (1 - share) * laminarPa + share * turbulentPa;
  };
  return { table, frictionPaPerM, velocityHeadPa };
}

export type ColumnResistance = {
  /** What friction, fittings and, for a rising column, the velocity head take of the pressure [Pa]. */
  readonly dropPa: (filledM3: number, flowM3PerS: number) => number;
  /** Σ ρ l/A over the wetted pipe: pressure per change of flow [kg/m⁴]. */
  readonly inertanceKgPerM4: (filledM3: number) => number;
};

/**
 * Resistance and inertance of the oil column at any filling of the pipe: Δp = Σ [f(Re) l/d + K l/L] ρ v²/2 over the wetted
 * pipe, and ρ v²/2 more while the column rises, which it takes from rest; f = 64/Re up to Re = 2300, after Colebrook from 4000
 * on.
 *
 * @param pipe - from {@link pipeTable} [SI]
 * @param fluid - dynamic viscosity and density of the oil in the pipe [Pa s, kg/m³]
 * @returns drop and inertance as functions of filling and flow [Pa, kg/m⁴]
 *
 * Source: Darcy and Weisbach; Hagen and Poiseuille; Colebrook (1939); the passage between Re 2300 and 4000 is our own.
 */
export function columnResistance(pipe: PipeTable, fluid: PipeFluid): ColumnResistance {
  const submerged = segmentResistance(pipe.submerged, fluid);
  const segments = pipe.segments.map((table) => segmentResistance(table, fluid));
  const all = [submerged, ...segments];
  // Drop and inertance are asked for at the same filling, one after the other.
  const wettedM = new Float64Array(all.length);
  wettedM[0] = pipe.submerged.segment.lengthM;
  let wettedAtM3 = Number.NaN;
  const wet = (filledM3: number): void => {
    if (filledM3 === wettedAtM3) return;
    for (let index = 1; index < all.length; index += 1) {
      wettedM[index] = wettedLengthM(all[index]?.table ?? pipe.submerged, filledM3);
    }
    wettedAtM3 = filledM3;
  };

  const dropPa = (filledM3: number, flowM3PerS: number): number => {
    let sumPa = 0;
    const surface = surfaceSegment(pipe, filledM3);
    wet(filledM3);
    for (let index = 0; index < all.length; index += 1) {
      const lengthM = wettedM[index] ?? 0;
      const piece = all[index];
      if (lengthM === 0 || piece === undefined) continue;
      const { table, frictionPaPerM, velocityHeadPa } = piece;
      const { fittingsLossCoefficient } = table.segment;
      sumPa += lengthM * frictionPaPerM(flowM3PerS);
      if (fittingsLossCoefficient > 0) {
        sumPa += ((fittingsLossCoefficient * lengthM) / table.segment.lengthM) * velocityHeadPa(flowM3PerS);
      }
    }
    return flowM3PerS > 0 ? sumPa + (fluid.densityKgPerM3 * flowM3PerS ** 2) / (2 * surface.areaM2 ** 2) : sumPa;
  };
  const inertanceKgPerM4 = (filledM3: number): number => {
    let sum = Math.min(0, filledM3) / submerged.table.areaM2 ** 2;
    wet(filledM3);
    for (let index = 0; index < all.length; index += 1) {
      sum += (wettedM[index] ?? 0) / (all[index]?.table.areaM2 ?? Number.NaN);
    }
    return fluid.densityKgPerM3 * sum;
  };
  return { dropPa, inertanceKgPerM4 };
}
