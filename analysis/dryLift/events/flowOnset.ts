import type { Course } from './course.ts';

/** How the flow came to the meter: at once to a first flow, from there towards a full one. */
export type FlowOnset = {
  /** When the line before the meter was full. */
  readonly atS: number;
  /** What came with that [m³/s]. */
  readonly firstM3PerS: number;
  /** Time constant of the rest of the rise [s]. */
  readonly riseS: number;
};

/** Time constants of the rise that are tried: at once, and up to that of a big dead volume behind a slow pump [s]. */
const RISES_S = [0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.45, 0.7, 1, 1.5] as const;
/** Onsets that are tried lie so close [s]. */
const STEP_S = 0.004;
/** An onset moves the fit by as much as the readings allow: 95 % of a chi-square of one. */
const CHI_SQUARE = 3.84;
/** No model of a rise is better than this share of the full flow [1]. */
const MODEL_SHARE = 0.01;

/** Response of a first-order lag to a step of one [1]. */
const toStep = (sinceS: number, lagS: number): number => (lagS === 0 ? 1 : 1 - Math.exp(-sinceS / lagS));

/** Response of the same lag to 1 − exp(−t/T) [1]. */
function toRise(sinceS: number, lagS: number, riseS: number): number {
  // Two like constants have a limit of their own; a hundredth apart is near enough to it.
  const rise = Math.abs(riseS - lagS) < 0.01 * riseS ? 1.01 * riseS : riseS;
  return 1 - (rise * Math.exp(-sinceS / rise) - lagS * Math.exp(-sinceS / Math.max(lagS, 1e-9))) / (rise - lagS);
}

/**
 * All onsets that agree with what a lagging meter showed, the best of them first: the flow jumps to a first value when the line
 * is full, and goes from there to the full one as 1 − exp(−t/T). For each onset and each T the first value is the one of least
 * squares.
 *
 * @param shown - of the meter about the onset, its lag still in it [s, m³/s]
 * @param meter - its lag [s], the noise of a reading [m³/s], and the full flow that it came to [m³/s]
 * @param between - where the onset may lie [s]
 * @returns the onsets; empty where there are too few readings [s, m³/s]
 *
 * Source: first-order lag and mixing, derived here.
 */
export function flowOnsets(
  shown: Course,
  meter: { readonly lagS: number; readonly noiseM3PerS: number; readonly fullM3PerS: number },
  between: { readonly fromS: number; readonly untilS: number },
): readonly FlowOnset[] {
  const { lagS, noiseM3PerS, fullM3PerS } = meter;
  const { timesS, values } = shown;
  if (timesS.length < 4) return [];
  const tried: { readonly onset: FlowOnset; readonly squares: number }[] = [];
  for (let atS = between.fromS; atS <= between.untilS; atS += STEP_S) {
    for (const riseS of RISES_S) {
      let [ww, wr, rr] = [0, 0, 0];
      for (const [index, timeS] of timesS.entries()) {
        const sinceS = timeS - atS;
        const value = values[index] ?? 0;
        const full = sinceS <= 0 ? 0 : fullM3PerS * toRise(sinceS, lagS, riseS);
        const weight = sinceS <= 0 ? 0 : toStep(sinceS, lagS) - full / fullM3PerS;
        ww += weight * weight;
        wr += weight * (value - full);
        rr += (value - full) ** 2;
      }
      const firstM3PerS = ww > 0 ? Math.max(0, Math.min(fullM3PerS, wr / ww)) : 0;
      const squares = rr - 2 * firstM3PerS * wr + firstM3PerS ** 2 * ww;
      tried.push({ onset: { atS, firstM3PerS, riseS }, squares });
    }
  }
  tried.sort((a, b) => a.squares - b.squares);
  const least = tried[0]?.squares ?? 0;
  const variance = Math.max(least / Math.max(1, timesS.length - 3), noiseM3PerS ** 2 + (MODEL_SHARE * fullM3PerS) ** 2);
  return tried.filter(({ squares }) => squares <= least + CHI_SQUARE * variance).map(({ onset }) => onset);
}

/**
 * How long before the meter's onset the port met a flow: what passed the port meanwhile filled the line. That may be a step,
 * which filled it at the flow it came with, or a rise from nothing, straight or as 1 − exp(−t/T): the rise after the onset,
 * carried on backwards, says where between them.
 *
 * @param onset - first flow at the meter, as a share of the full one, above the level [1]
 * @param level - the flow that is to be met, as a share of the full one [1]
 * @param riseTimes - T of the rise after the onset, over line volume by full flow [1]
 * @returns that time over line volume by full flow, and a quarter of its range [1]
 *
 * Source: ∫ q dt = V for q = u, for q = t/T and for q = 1 − exp(−t/T), each with q = u at the onset; derived here.
 *
 * @example fillTimes(0.8, 0.5, 0.1).times // 0.9375: carried back 0.092; no less than the straight rise's (2/0.8) (1 − 0.5/0.8)
 */
export function fillTimes(
  onset: number,
  level: number,
  riseTimes: number,
): { readonly times: number; readonly halfWidth: number } {
  const share = Math.min(0.99, onset);
  const carriedBack = Math.log((1 - level) / (1 - share));
  const [step, straight] = [1 / share, (2 / share) * (1 - level / share)];
  const mixed = carriedBack / (-Math.log(1 - share) - share);
  const [least, most] = [Math.min(step, straight, mixed), Math.max(step, straight, mixed)];
  return { times: Math.min(most, Math.max(least, riseTimes * carriedBack)), halfWidth: (most - least) / 4 };
}
