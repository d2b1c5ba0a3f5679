import { mean } from 'simple-statistics';
import { sampleCourse } from '../../fitting/integrateStiff.ts';
import type { SetUp } from '../../records/runRecord.ts';
import type { Course } from '../events/course.ts';
import { laggedCourse } from '../fit/laggedCourse.ts';
import { pipeAt } from '../fit/predictStart.ts';
import { suctionSideOf } from '../fit/suctionSide.ts';
import type { DryPump } from '../model/dryPump.ts';
import { PRESSURE_PA, simulateDryStart } from '../model/simulateDryStart.ts';
import { recordedSpeed } from '../model/speedCourse.ts';

/** How gas comes back into a suction that has come to rest. */
export type LeakShape = {
  readonly shape: 'gaps' | 'hole' | 'cannot tell';
  /** Share of the gas that comes through the hole in the rise that agrees best [1]. */
  readonly holeShare: number;
  /** By how much the best rise with the other kind of leak in the lead agrees less: a difference of chi-squares [1]. */
  readonly lead: number;
};

/** Chi-squares apart from which on the shape is told: three standard deviations. */
const CLEAR_LEAD = 9;
/** No model of a rise is better than this share of its end [1]. */
const MODEL_SHARE = 0.015;
/** A rise that misses the readings by more than this share of its end is not told by either [1]. */
const MOST_MISFIT_SHARE = 0.06;
/** Shares of the gas through the hole that are tried, either side of half [1]. */
const HOLE_SHARES = [0, 0.2, 0.4, 0.6, 0.8, 1] as const;
/** Dead volumes that are tried, over the stated one [1]. */
const DEAD_VOLUMES = [0.6, 1, 1.6] as const;
/** The rise until this share of its end is compared, and as long again [1]. */
const RISEN_SHARE = 0.95;
/** So wide a gap that its entry alone resists [m³/(s Pa)]. */
const WIDE_OPEN_M3_PER_S_PA = 1;
/** Gas before the gears: between 1 and 1.4 [1]. */
const EXPONENT = 1.2;
/** Means over so long are compared [s]. */
const MEAN_S = 0.1;

export type StalledStart = {
  /** Below rest, from the motor start on [s since then, Pa]. */
  readonly drawn: Course;
  readonly speed: Course;
  readonly noisePa: number;
  /** Where it came to rest, below the atmosphere. */
  readonly endPa: number;
  readonly sweptVolumeM3PerRev: number;
  readonly runningRevPerS: number;
  readonly suctionLagS: number;
  readonly setUp: SetUp;
  readonly oil: { readonly densityKgPerM3: number; readonly dynamicViscosityPaS: number };
};

/** Means over short stretches, with how many readings each is of. */
type Means = {
  readonly timesS: readonly number[];
  readonly values: readonly number[];
  readonly counts: readonly number[];
};

function meansOf({ timesS, values }: Course, untilS: number): Means {
  const means = { timesS: [] as number[], values: [] as number[], counts: [] as number[] };
  let first = 0;
  for (let index = 1; index <= timesS.length; index += 1) {
    const fromS = timesS[first] ?? 0;
    if (fromS > untilS) break;
    if (index < timesS.length && (timesS[index] ?? 0) - fromS < MEAN_S) continue;
    means.timesS.push(mean(timesS.slice(first, index)));
    means.values.push(mean(values.slice(first, index)));
    means.counts.push(index - first);
    first = index;
  }
  return means;
}

/** Gas comes back through a hole and through gaps, each its share of what the end of the start demands. */
function leakingPump({ endPa, sweptVolumeM3PerRev, runningRevPerS, setUp }: StalledStart, holeShare: number): DryPump {
  const atmospherePa = setUp.barometerPa.value;
  const restPa = atmospherePa - endPa;
  const backPaM3PerS = restPa * sweptVolumeM3PerRev * runningRevPerS;
  const drivePa2 = atmospherePa ** 2 - restPa ** 2;
  return {
    capacityM3PerRev: sweptVolumeM3PerRev,
    gapChange: null,
    carryOverShare: 0,
    gapConstantM3PerSPerPa: holeShare > 0 ? WIDE_OPEN_M3_PER_S_PA : 0,
    entryLossS2PerM6: holeShare > 0 ? drivePa2 / (holeShare * backPaM3PerS) ** 2 : 0,
    // Beside a vented delivery a narrow leak is one and the same, wherever it comes from.
    shaftLeakM3PerSPerPa: ((1 - holeShare) * backPaM3PerS) / drivePa2,
  };
}

/** Suction of such a start at the middles of the means [Pa]. */
function courseOf(start: StalledStart, holeShare: number, deadVolumeTimes: number, means: Means): Float64Array {
  const { speed, setUp, oil, suctionLagS } = start;
  const atmospherePa = setUp.barometerPa.value;
  const { pipe } = suctionSideOf(setUp);
  const { rise } = simulateDryStart(
    {
      pump: leakingPump(start, holeShare),
      speedRevPerS: recordedSpeed(speed.timesS, speed.values),
      atmospherePa,
      deliveryPressurePa: atmospherePa,
      polytropicExponent: EXPONENT,
      pipe: pipeAt(pipe, (input) => input.value),
      deadVolumeM3: deadVolumeTimes * setUp.deadVolumeM3,
      oil,
      outletVolumeM3: 0,
      deliveryLineVolumeM3: 0,
    },
    (means.timesS.at(-1) ?? 0) + MEAN_S,
    1e-4,
  );
  const shown = (timesS: Float64Array) =>
    sampleCourse(
      rise,
      PRESSURE_PA,
      timesS.map((timeS) => Math.max(0, timeS)),
    );
  return laggedCourse(shown, means.timesS, suctionLagS);
}

/**
 * Whether gas comes back through narrow gaps, G = C (p_d² − p²), or through an open hole, G² = (p_d² − p²)/B, or by what
 * share through each. Together they are as large as the suction's end demands, which leaves their shares and the dead
 * volume to try: near its end the rise through a hole is twice as quick as that through gaps, ∂G/∂Δp = G/(2 Δp) against G/Δp
 * beside the same column.
 *
 * @param start - one that came to rest without oil [SI]
 * @returns which of the two is in the lead, if the rise tells [-]
 *
 * Source: models of the dry start, derived there; the comparison derived here.
 */
export function leakShape(start: StalledStart): LeakShape {
  const { drawn, endPa, setUp, noisePa } = start;
  const risen = drawn.values.findIndex((value) => value >= RISEN_SHARE * endPa);
  const means = meansOf(drawn, 2 * Math.max(1, drawn.timesS[risen] ?? 1));
  const tried = HOLE_SHARES.flatMap((holeShare) =>
    DEAD_VOLUMES.map((deadVolumeTimes) => {
      const pressuresPa = courseOf(start, holeShare, deadVolumeTimes, means);
      const missPa = means.values.map((value, at) => value - (setUp.barometerPa.value - (pressuresPa[at] ?? 0)));
      const chiSquare = missPa.reduce((sum, miss, at) => {
        const variance = noisePa ** 2 / (means.counts[at] ?? 1) + (MODEL_SHARE * endPa) ** 2;
        return sum + miss ** 2 / variance;
      }, 0);
      return { holeShare, chiSquare, missPa: Math.sqrt(mean(missPa.map((miss) => miss ** 2))) };
    }),
  );
  const bestOf = (of: typeof tried) => of.reduce((best, one) => (one.chiSquare < best.chiSquare ? one : best));
  const gaps = bestOf(tried.filter(({ holeShare }) => holeShare < 0.5));
  const hole = bestOf(tried.filter(({ holeShare }) => holeShare > 0.5));
  const best = gaps.chiSquare < hole.chiSquare ? gaps : hole;
  // Against the scatter that is really there, if that is more than noise and model allow.
  const scale = Math.max(1, best.chiSquare / Math.max(1, means.values.length - 2));
  const lead = Math.abs(gaps.chiSquare - hole.chiSquare) / scale;
  const isTold = lead > CLEAR_LEAD && best.missPa < MOST_MISFIT_SHARE * endPa + 3 * noisePa;
  return { shape: !isTold ? 'cannot tell' : best === gaps ? 'gaps' : 'hole', holeShare: best.holeShare, lead };
}
