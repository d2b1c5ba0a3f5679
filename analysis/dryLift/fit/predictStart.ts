import { sampleCourse } from '../../fitting/integrateStiff.ts';
import type { PipeFluid } from '../../hydraulics/pipeFriction.ts';
import type { Uncertain } from '../../uncertainty/source.ts';
import { blankedOnGrid } from '../model/blankedSuction.ts';
import { dryStartOnGrid, PRESSURE_PA } from '../model/simulateDryStart.ts';
import type { SuctionPipe } from '../model/suctionPipe.ts';
import type { FitSpace } from './fitSpace.ts';
import { laggedCourse } from './laggedCourse.ts';
import type { MeasuredStart, StartSurroundings, UncertainPipe } from './measuredStartTypes.ts';

/** Drawn tube [m]; suction pipes of oil run laminar, where it does not count. */
export const ROUGHNESS_M = 1.5e-6;

/** The pipe as the parameters have it; a piece is never shorter than it rises. */
export function pipeAt(pipe: UncertainPipe, inputAt: (input: Uncertain) => number): SuctionPipe {
  const segments = pipe.pieces.map((piece) => {
    const riseM = inputAt(piece.riseM);
    return {
      boreM: inputAt(piece.boreM),
      lengthM: Math.max(inputAt(piece.lengthM), Math.abs(riseM)),
      riseM,
      roughnessM: ROUGHNESS_M,
      fittingsLossCoefficient: piece.fittingsLossCoefficient,
    };
  });
  return {
    submerged: {
      boreM: segments[0]?.boreM ?? Number.NaN,
      lengthM: Math.max(1e-3, inputAt(pipe.submergedLengthM)),
      roughnessM: ROUGHNESS_M,
      fittingsLossCoefficient: pipe.strainerLossCoefficient,
    },
    segments,
    hasFootValve: pipe.hasFootValve,
  };
}

/** The oil of a start as the parameters have it. */
export function oilAt(
  surroundings: Pick<StartSurroundings, 'densityKgPerM3' | 'dynamicViscosityPaS'>,
  inputAt: (input: Uncertain) => number,
): PipeFluid {
  return {
    densityKgPerM3: inputAt(surroundings.densityKgPerM3),
    dynamicViscosityPaS: inputAt(surroundings.dynamicViscosityPaS),
  };
}

/**
 * Steps of the integration: short while motor and column set themselves going, then growing with the time [s], [1]. Errors
 * stay below a tenth of the noise of the means that are fitted.
 */
const FINE_STEP_S = 0.025;
const STEP_SHARE = 0.02;

/** The steps of a start, from zero to its end or a little beyond [s]. */
function stepsOf(endS: number): readonly number[] {
  const steps = [0];
  for (let atS = 0; atS < endS; ) {
    atS += Math.max(FINE_STEP_S, STEP_SHARE * atS);
    steps.push(atS);
  }
  return steps;
}

/**
 * The suction pressures that the parameters predict for a start, as its channel would have shown them.
 *
 * @param start - measured start [SI]
 * @param space - meaning of the parameters [-]
 * @param parameters - of the fit [-]
 * @returns absolute pressure at each of the start's times [n, Pa]
 * @throws RangeError if no start can have these parameters
 */
export function predictStart(start: MeasuredStart, space: FitSpace, parameters: readonly number[]): Float64Array {
  const { surroundings, timesS, kind } = start;
  const inputAt = (input: Uncertain): number => space.inputAt(input, parameters);
  const running = space.running(surroundings, start.speedRevPerS, parameters);
  const timingS = space.timingS(start, parameters);
  const steps = stepsOf(timesS[timesS.length - 1] ?? 0);
  const deadVolumeM3 = space.deadVolumeM3(parameters);
  const course =
    kind === 'blanked'
      ? blankedOnGrid({ ...running, closedVolumeM3: deadVolumeM3 }, steps)
      : dryStartOnGrid(
          {
            ...running,
            pipe: pipeAt(surroundings.pipe, inputAt),
            deadVolumeM3,
            oil: oilAt(surroundings, inputAt),
            outletVolumeM3: 0,
            deliveryLineVolumeM3: 0,
          },
          steps,
        );
  const component = kind === 'blanked' ? 0 : PRESSURE_PA;
  return laggedCourse(
    (atS) => sampleCourse(course, component, atS),
    timesS.map((timeS) => timeS - timingS),
    start.suctionLagS,
  );
}
