import { BAROMETER_SOURCE_ID, channelSources } from '../../analysis/calibration/channelSources.ts';
import { preparedStarts } from '../../analysis/dryLift/estimateRun.ts';
import type { DryFitInput } from '../../analysis/dryLift/fit/dryFitInput.ts';
import type { PreparedStart } from '../../analysis/dryLift/fit/measuredStart.ts';
import { recordedStarts } from '../../analysis/dryLift/recordedStarts.ts';
import { oilSources } from '../../analysis/oil/oilStateAt.ts';
import type { Outcome } from '../../analysis/outcome.ts';
import { no, yes } from '../../analysis/outcome.ts';
import type { RunRecord, SetUp } from '../../analysis/records/runRecord.ts';
import type { Source } from '../../analysis/uncertainty/source.ts';
import type { PracticePlant } from '../../rig/practiceBench/plant.ts';
import { type PumpKind, pumpKind } from '../../rig/practiceBench/pumpKind.ts';

import type { PracticeScenario } from '../../rig/practiceBench/pumpTruth.ts';
import { createRandom, type Random } from '../../rig/practiceBench/random.ts';
import { PRACTICE_SET_UP, type PracticeSetUp } from '../../rig/practiceBench/setUp.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { dryStartScript, recordPractice } from '../support/practiceRun.ts';
import { drawnPipe, drawnPlant } from './drawPlant.ts';

/** What a study is made of, in turn. */
export const EVIDENCE = ['lift', 'lift, worn', 'lift, stands', 'blanked', 'blanked, worn', 'lift and blanked'] as const;
export type Evidence = (typeof EVIDENCE)[number];

/** What a practice bench did, ready for the fit, and what was true of it. */
export type RecordedDryPump = {
  readonly seed: number;
  readonly evidence: Evidence;
  readonly input: Outcome<DryFitInput, { readonly code: string }>;
  /** Whether films dried or wetted. */
  readonly hasFilms: boolean;
  readonly truth: {
    readonly limitM: number;
    readonly carryOverShare: number;
    /** B C² p_atm² of the bench's gaps, K of whose entry adds 0.1 at 1e9 Pa². */
    readonly entryLoss: number;
    readonly exponent: number;
  };
};

export const SPEED_REV_PER_S = 10;
const LOW_SPEED_REV_PER_S = 5;
const LIFT_WATCH_S = 15;
const BLANKED_WATCH_S = 8;
const DRAW_STREAM = 78;
const CAPACITY_DEVIATION = 0.003;
const CARRY_OVER = { least: 0.001, most: 0.01, share: 0.5 } as const;

const SCENARIO: Readonly<Record<Evidence, PracticeScenario>> = {
  lift: 'healthy',
  'lift, worn': 'worn',
  'lift, stands': 'unprimable',
  blanked: 'healthy',
  'blanked, worn': 'worn',
  'lift and blanked': 'healthy',
};

/** Standard uncertainties with which the papers state the suction side. */
const STATED = { boreM: 5e-5, lengthM: 0.003, deadVolumeM3: 6e-6 } as const;
const PIECE_LENGTH_M = 0.002;

type Drawn = { readonly setUp: PracticeSetUp; readonly runSetUp: SetUp; readonly plant: PracticePlant };

/** A bench whose papers are off by as much as they state: lift, bore, lengths, dead volume, barometer, oil. */
function drawn(random: Random): Drawn {
  const near = (value: number, deviation: number): number => value + deviation * random.normal();
  const statedLiftM = 0.3 + 0.4 * random.uniform();
  const levelM = 0.1 + 0.4 * random.uniform();
  const lift = { value: statedLiftM, standardUncertainty: 0.005 };
  const trueLiftM = near(statedLiftM, lift.standardUncertainty);
  const boreM = near(PRACTICE_SET_UP.suctionPipeBoreM, STATED.boreM);
  const lengthM = near(statedLiftM + levelM, STATED.lengthM);
  const barometer = PRACTICE_RUN_SET_UP.barometerPa;
  const setUp: PracticeSetUp = {
    ...PRACTICE_SET_UP,
    staticLiftM: trueLiftM,
    suctionPipeBoreM: boreM,
    suctionPipeLengthM: Math.max(lengthM, trueLiftM),
    deadVolumeM3: near(PRACTICE_SET_UP.deadVolumeM3, STATED.deadVolumeM3),
    densityAt15CKgPerM3: near(
      PRACTICE_SET_UP.densityAt15CKgPerM3,
      PRACTICE_OIL.densityRelativeStandardUncertainty * PRACTICE_SET_UP.densityAt15CKgPerM3,
    ),
    barometerPa: near(barometer.value, barometer.standardUncertainty),
  };
  const pipe = drawnPipe(random, {
    liftM: trueLiftM,
    levelM: near(levelM, PIECE_LENGTH_M),
    statedLiftM,
    statedLevelM: levelM,
    boreM: { value: PRACTICE_SET_UP.suctionPipeBoreM, standardUncertainty: STATED.boreM },
    lengthStandardUncertaintyM: PIECE_LENGTH_M,
  });
  return {
    setUp,
    plant: { ...drawnPlant(random, CARRY_OVER), ...pipe.plant },
    runSetUp: {
      ...PRACTICE_RUN_SET_UP,
      staticLiftM: lift,
      suctionPipeLengthM: statedLiftM + levelM,
      suctionSideStandardUncertainty: STATED,
      suctionPipe: pipe.suctionPipe,
    },
  };
}

/** Dry starts of one evidence on a bench of a seed; pumps of all three kinds in turn. */
export function recordDryPump(seed: number, evidence: Evidence): RecordedDryPump {
  const random = createRandom(seed, DRAW_STREAM);
  const { setUp, runSetUp, plant } = drawn(random);
  const pump: PumpKind = pumpKind.options[seed % pumpKind.options.length] ?? 'externalGear';
  const record = (speedRevPerS: number, isBlanked: boolean) =>
    recordPractice(isBlanked ? 'blanked' : 'dryLift', SCENARIO[evidence], seed, {
      setUp,
      runSetUp,
      plant,
      pump,
      script: dryStartScript(60 * speedRevPerS, isBlanked ? BLANKED_WATCH_S : LIFT_WATCH_S, isBlanked),
    });
  const recorded = [
    ...(evidence.startsWith('lift') ? [record(SPEED_REV_PER_S, false)] : []),
    ...(evidence.includes('blanked') ? [record(SPEED_REV_PER_S, true)] : []),
    ...(evidence === 'lift and blanked' ? [record(LOW_SPEED_REV_PER_S, true)] : []),
  ];
  const [first] = recorded;
  if (first === undefined) throw new Error(`nothing recorded for ${evidence}`);
  const truth = first.bench.truth();
  const capacityM3PerRev = truth.derivedCapacityM3PerRev * (1 + CAPACITY_DEVIATION * random.normal());
  const sources = sourcesOf(first.run, capacityM3PerRev);

  const prepared: PreparedStart[] = [];
  let refused: { readonly code: string } | null = null;
  const capacity = { value: capacityM3PerRev, sensitivities: { 'delivery.capacity': 1 } };
  for (const [index, { run, decoded }] of recorded.entries()) {
    const starts = recordedStarts(run, decoded.readings, truth.sweptVolumeM3PerRev);
    const ready = starts.ok
      ? preparedStarts({ ...run, id: `start-${index + 1}` }, starts.value, capacity, sources)
      : starts;
    if (ready.ok) prepared.push(...ready.value.prepared);
    else refused = ready.reason;
  }
  return {
    seed,
    evidence,
    hasFilms: plant.films !== undefined,
    input:
      refused === null
        ? yes({ prepared, capacity: { m3PerRev: capacity, basis: 'derived' }, sources, shaftEnds: 'sealed' })
        : no(refused),
    truth: {
      limitM: truth.dryLift.limitM,
      carryOverShare: plant.carryOverShare ?? truth.pump.carryOverShare,
      entryLoss: (0.1 * setUp.barometerPa ** 2) / 1e9,
      exponent: 1.2,
    },
  };
}

function sourcesOf(run: RunRecord, capacityM3PerRev: number): readonly Source[] {
  const common = { kind: 'calibration', degreesOfFreedom: null, shape: 'normal', pooledAs: null } as const;
  const circumstances = { onDate: '2026-06-01', zeroCheck: null };
  return [
    ...run.bench.channels.flatMap((channel) => channelSources(channel, circumstances)),
    ...oilSources(run.oil),
    {
      ...common,
      id: BAROMETER_SOURCE_ID,
      label: 'barometer',
      standardUncertainty: run.setUp.barometerPa.standardUncertainty,
    },
    {
      ...common,
      id: 'delivery.capacity',
      label: 'derived capacity of a delivery run',
      standardUncertainty: CAPACITY_DEVIATION * capacityM3PerRev,
    },
  ];
}
