import { createPracticeBench } from '../../rig/practiceBench/createPracticeBench.ts';
import type { PracticePlant } from '../../rig/practiceBench/plant.ts';
import { type PumpKind, pumpKind } from '../../rig/practiceBench/pumpKind.ts';
import type { PracticeScenario } from '../../rig/practiceBench/pumpTruth.ts';
import { createRandom } from '../../rig/practiceBench/random.ts';
import { PRACTICE_SET_UP } from '../../rig/practiceBench/setUp.ts';
import { PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { type WatchedStart, watchedStart } from './watchedStart.ts';

/** What can be planted so that a pump does not prime. */
export const PLANTED_CAUSES = [
  'pumpDoesNotSeal',
  'suctionPipeLeak',
  'airAtTheFoot',
  'reliefNotSeating',
  'shaftNotDriven',
  'deliveryNotVented',
  'pipeBlocked',
  'wrongRotation',
] as const;
export type PlantedCause = (typeof PLANTED_CAUSES)[number];

const DRAW_STREAM = 92;
const REST_S = 2;
const WATCH_S = 20;
const HOLD_BEFORE_STOP_S = 0.1;
const HOLD_S = 12;
/** A cause that lets the column come so near to the lift might as well prime [1]. */
const MOST_LIMIT_SHARE = 0.85;
/** One cause at a time: without it the pump would lift so much more than it is asked to [1]. */
const LEAST_SOUND_SHARE = 1.5;
/** C_d A of a seat of 12 mm that a chip of 0.05 to 0.35 mm keeps open, or of a hole of 1.5 to 4 mm: invented [m²]. */
const HOLE_M2 = { least: 1e-6, most: 8e-6 } as const;
const NEXT_SEED = 100_000;

type Drawn = { readonly scenario: PracticeScenario; readonly plant: PracticePlant };

function drawCause(cause: PlantedCause, draw: (from: number, to: number) => number): Drawn {
  const log = (from: number, to: number): number => Math.exp(draw(Math.log(from), Math.log(to)));
  const scenario: PracticeScenario = draw(0, 1) < 0.5 ? 'healthy' : 'worn';
  switch (cause) {
    case 'pumpDoesNotSeal':
      return draw(0, 1) < 0.6
        ? { scenario: 'unprimable', plant: {} }
        : { scenario, plant: { shaftLeakM3PerSPerPa: log(2e-8, 3e-7) } };
    case 'suctionPipeLeak':
      return { scenario, plant: { pipeLeakM2: log(HOLE_M2.least, HOLE_M2.most) } };
    case 'airAtTheFoot':
      return { scenario, plant: { strainerAirShare: draw(0.6, 0.88) } };
    case 'reliefNotSeating':
      return { scenario, plant: { reliefNotSeatingM2: log(HOLE_M2.least, HOLE_M2.most) } };
    case 'shaftNotDriven':
      return { scenario, plant: { isShaftNotDriven: true } };
    case 'deliveryNotVented':
      return { scenario, plant: { unventedDeliveryM3: log(3e-5, 1e-3) } };
    case 'pipeBlocked':
      return { scenario, plant: { isPipeBlocked: true } };
    case 'wrongRotation':
      return { scenario, plant: { isReversed: true } };
  }
}

const STALLING: readonly PlantedCause[] = ['pumpDoesNotSeal', 'suctionPipeLeak', 'reliefNotSeating'];

/** A start that fails for one planted cause, and ends with a hold of the pipe: tapping and flange valve as its set-up says. */
export function plantedCause(cause: PlantedCause, seed: number): WatchedStart {
  const random = createRandom(seed, DRAW_STREAM);
  const draw = (from: number, to: number): number => from + (to - from) * random.uniform();
  const pump: PumpKind = pumpKind.options[seed % pumpKind.options.length] ?? 'externalGear';
  const { scenario, plant } = drawCause(cause, draw);
  const speedRPerMin = Math.round(draw(300, 800));
  const liftM = draw(0.35, 0.7);
  const limitWith = (planted: PracticePlant): number => {
    const probe = createPracticeBench({ seed, scenario, pump, plant: planted });
    probe.command(`speed ${speedRPerMin}`);
    probe.step(0.01);
    return probe.truth().dryLift.limitM;
  };
  const isFailing = !STALLING.includes(cause) || limitWith(plant) < MOST_LIMIT_SHARE * liftM;
  const isSoundWithout = scenario === 'unprimable' || limitWith({}) > LEAST_SOUND_SHARE * liftM;
  if (!isFailing || !isSoundWithout) return plantedCause(cause, seed + NEXT_SEED);
  const lengthM = liftM + draw(0.05, 0.4);
  const stopS = REST_S + WATCH_S;
  return watchedStart({
    seed,
    scenario,
    pump,
    plant,
    setUp: { ...PRACTICE_SET_UP, staticLiftM: liftM, suctionPipeLengthM: lengthM },
    runSetUp: {
      ...PRACTICE_RUN_SET_UP,
      staticLiftM: { value: liftM, standardUncertainty: 0.005 },
      suctionPipeLengthM: lengthM,
      endsWithPipeHold: true,
    },
    script: [
      ...['speed 0', 'dry', 'valve 1', 'blank 0'].map((command) => ({ atS: 0, command })),
      { atS: REST_S, command: `speed ${speedRPerMin}` },
      { atS: stopS - HOLD_BEFORE_STOP_S, command: 'hold 1' },
      { atS: stopS, command: 'speed 0' },
    ],
    endS: stopS + HOLD_S,
  });
}
