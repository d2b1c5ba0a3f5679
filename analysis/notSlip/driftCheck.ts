import type { Coefficients } from '../delivery/slipLaw.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Source, SourceTable, Uncertain } from '../uncertainty/source.ts';
import { type CheckRead, isBeyondChance, percentWithin } from './checkRead.ts';
import { lawShift } from './lawDeparture.ts';
import { isSameSetPoint, takenInOrder } from './setPoints.ts';
import { statedShare } from './statedShare.ts';

export type DriftNumbers = {
  readonly firstHoldNumber: number;
  readonly repeatHoldNumber: number;
  /** Of flow per turn from the first hold to its repeat, slip made alike, a share of V_i [1]. */
  readonly shift: Uncertain;
  /** Middle of the first hold and of its repeat [s]. */
  readonly fromS: number;
  readonly toS: number;
  /** Belong into the budget whether the shift is a sign or not; {@link withDrift} makes the holds sensitive to them. */
  readonly sources: readonly Source[];
};

/** The repeat must come in the last part of the run, or it says nothing of the rest [1]. */
const LAST_PART = 0.75;

/** A smaller shift needs no words, only its place in the budget: a house limit [1]. */
const SMALLEST_SHIFT = 0.005;

const LEVEL_ID = 'run.drift';
const COURSE_ID = 'run.drift.course';

function middleS(hold: HoldState): number {
  return (hold.startS + hold.endS) / 2;
}

/** Standard uncertainty of a rectangular error of this half width. Source: JCGM 100:2008, 4.3.7. */
function rectangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

function driftSources(shift: number): readonly Source[] {
  const common = { kind: 'calibration', degreesOfFreedom: null, shape: 'rectangular', pooledAs: null } as const;
  const size = Math.abs(shift);
  return [
    {
      ...common,
      id: LEVEL_ID,
      label: 'drift: which moment of the run counts',
      standardUncertainty: rectangular(size / 2),
    },
    { ...common, id: COURSE_ID, label: 'drift: its course through the run', standardUncertainty: rectangular(size) },
  ];
}

/**
 * Did pump, oil or bench change during the run? The first hold is held against its repeat at the end of the run. Whatever
 * the shift s, it goes into the budget: flow at time τ (0 at the first hold, 1 at its repeat) stood at q (1 + s (τ − θ)),
 * where the moment θ that the law speaks of may be any between 0 and 1. Of s (τ − θ) = s (½ − θ) + s (τ − ½) the first part
 * is common to all holds, rectangular with half width |s|/2; the second runs through the run in time, and since neither
 * its course nor s is well known it is rectangular with half width |s|.
 *
 * @param holds - of one run; those left out take no part [n holds]
 * @param coefficients - of the fitted law, so that other oil or pressure is not taken for drift [m³/rev, m³, m², m³/Pa]
 * @param sources - every source that the holds are sensitive to [-]
 * @returns shift and its sources, or what is missing to tell [1]
 *
 * Source: derived here; JCGM 100:2008, 4.3.7 (rectangular) and F.2.4.5 (an effect that is not corrected).
 */
export function driftCheck(
  holds: readonly HoldState[],
  coefficients: Coefficients,
  sources: SourceTable,
): CheckRead<DriftNumbers, 'FIRST_NOT_REPEATED'> {
  const taken = takenInOrder(holds);
  const first = taken[0];
  const last = taken.at(-1);
  const repeat = first && taken.slice(2).findLast((hold) => isSameSetPoint(first, hold));
  const isLate =
    first !== undefined &&
    last !== undefined &&
    repeat !== undefined &&
    middleS(repeat) - middleS(first) >= LAST_PART * (middleS(last) - middleS(first));
  if (!isLate) {
    return {
      read: 'cannot tell',
      code: 'FIRST_NOT_REPEATED',
      text: 'Whether anything drifted cannot be told: the first hold was not repeated at the end. Set the first point once more before the run is stopped.',
    };
  }
  const shift = lawShift(first, repeat, coefficients);
  const numbers: DriftNumbers = {
    firstHoldNumber: first.number,
    repeatHoldNumber: repeat.number,
    shift,
    fromS: middleS(first),
    toS: middleS(repeat),
    sources: driftSources(shift.value),
  };
  const size: Uncertain = { ...shift, value: Math.abs(shift.value) };
  if (size.value > SMALLEST_SHIFT && isBeyondChance(size, sources, 2)) {
    return {
      read: 'sign',
      numbers,
      text: `Hold ${repeat.number} repeats hold ${first.number} and delivers ${statedShare(size, sources)} ${shift.value > 0 ? 'more' : 'less'}: pump, oil or bench changed during the run. The shift stands in the budget; soak until the case holds its temperature and repeat the run.`,
    };
  }
  return {
    read: 'no sign',
    numbers,
    text: `Hold ${repeat.number} repeats hold ${first.number} within ${percentWithin(size.value)} %: nothing drifted that would count.`,
  };
}

/**
 * Holds that carry the drift of their run: to be fitted once more, so that capacity, slip and efficiency have it in their
 * budgets. Add the drift's sources to the table.
 *
 * @param holds - of the run [n holds]
 * @param drift - what {@link driftCheck} found, sign or not [-]
 * @returns the same holds, flows sensitive to the drift by q and by q (τ − ½) [n holds]
 */
export function withDrift(holds: readonly HoldState[], drift: DriftNumbers): readonly HoldState[] {
  return holds.map((hold) => {
    const course = (middleS(hold) - drift.fromS) / (drift.toS - drift.fromS) - 0.5;
    const drifting = (flow: Uncertain): Uncertain => ({
      value: flow.value,
      sensitivities: { ...flow.sensitivities, [LEVEL_ID]: flow.value, [COURSE_ID]: flow.value * course },
    });
    return {
      ...hold,
      flowM3PerS: drifting(hold.flowM3PerS),
      inletFlowM3PerS: drifting(hold.inletFlowM3PerS),
    };
  });
}
