import type { Measured } from '../../analysis/records/fields.ts';
import type { SetUp } from '../../analysis/records/runRecord.ts';
import type { PracticePlant } from '../../rig/practiceBench/plant.ts';
import type { Random } from '../../rig/practiceBench/random.ts';

/** Films that dry or wet: gap constant at the first turn over that in the end, both ways alike [1], and how fast [s]. */
const FILM_FACTOR = { least: 0.25, most: 4 } as const;
const FILM_TIME_S = { least: 0.5, most: 5 } as const;
const FOAM_PERIOD_S = { least: 0.5, most: 2 } as const;
const MOST_FOAM_BURSTS = 3;
const SUBMERGED_M = 0.15;
const SHAFT_LEAK_M3_PER_S_PER_PA = 1e-10;

/** How often each is planted [1]. */
const SHARE = { films: 1 / 3, shaftLeak: 1 / 4, foam: 0.3, levelRun: 1 / 2, footValve: 1 / 2 } as const;

/** A number between two, whose logarithm is drawn evenly. */
function drawnBetween(random: Random, { least, most }: { readonly least: number; readonly most: number }) {
  return least * (most / least) ** random.uniform();
}

/** A carry-over other than the one of the pump's kind: between what, and how often [1]. */
type CarryOver = { readonly least: number; readonly most: number; readonly share: number };

/**
 * What any practice pump that is started dry in a study may have, whatever it is studied for: carry-over, a shaft end that
 * draws air, films that dry or wet, foam in the first oil.
 */
export function drawnPlant(random: Random, carryOver: CarryOver): PracticePlant {
  const has = (share: number): boolean => random.uniform() < share;
  return {
    ...(has(carryOver.share) ? { carryOverShare: drawnBetween(random, carryOver) } : {}),
    ...(has(SHARE.shaftLeak) ? { shaftLeakM3PerSPerPa: SHAFT_LEAK_M3_PER_S_PER_PA } : {}),
    ...(has(SHARE.films)
      ? {
          films: {
            startFactor: drawnBetween(random, FILM_FACTOR),
            timeConstantS: drawnBetween(random, FILM_TIME_S),
          },
        }
      : {}),
    ...(has(SHARE.foam)
      ? {
          foam: {
            burstCount: 1 + Math.floor(MOST_FOAM_BURSTS * random.uniform()),
            periodS: FOAM_PERIOD_S.least + (FOAM_PERIOD_S.most - FOAM_PERIOD_S.least) * random.uniform(),
          },
        }
      : {}),
  };
}

/** The suction pipe of a study: how long in truth, and with which errors the papers state it. */
type PipeToDraw = {
  readonly liftM: number;
  readonly levelM: number;
  readonly statedLiftM: number;
  readonly statedLevelM: number;
  readonly boreM: Measured;
  readonly lengthStandardUncertaintyM: number;
};

/**
 * Half of the pipes have their level run half way up, and are described piece by piece; half of those a foot valve. The others
 * are a riser with a level rest.
 */
export function drawnPipe(
  random: Random,
  { liftM, levelM, statedLiftM, statedLevelM, boreM, lengthStandardUncertaintyM }: PipeToDraw,
): { readonly plant: PracticePlant; readonly suctionPipe: SetUp['suctionPipe'] } {
  if (random.uniform() >= SHARE.levelRun) return { plant: {}, suctionPipe: null };
  const hasFootValve = random.uniform() < SHARE.footValve;
  const piece = (lengthM: number, riseM: number) => ({
    boreM,
    lengthM: { value: lengthM, standardUncertainty: lengthStandardUncertaintyM },
    riseM,
    fittingLossCoefficient: 0,
  });
  const half = piece(statedLiftM / 2, statedLiftM / 2);
  return {
    plant: {
      ...(hasFootValve ? { hasFootValve } : {}),
      pipeLegs: [
        { lengthM: liftM / 2, riseM: liftM / 2 },
        { lengthM: levelM, riseM: 0 },
        { lengthM: liftM / 2, riseM: liftM / 2 },
      ],
    },
    suctionPipe: {
      submergedLengthM: SUBMERGED_M,
      strainerLossCoefficient: 0,
      hasFootValve,
      pieces: [half, piece(statedLevelM, 0), half],
    },
  };
}
