import { findStartEvents } from '../../analysis/dryLift/events/findStartEvents.ts';
import type { StartEvent } from '../../analysis/dryLift/events/startEvent.ts';
import { findPriming } from '../../analysis/dryLift/findPriming.ts';
import { wetStart } from '../../analysis/dryLift/wetStart.ts';
import { sourceTable } from '../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../analysis/uncertainty/stateUncertainty.ts';
import { createPracticeBench } from '../../rig/practiceBench/createPracticeBench.ts';
import { pumpKind } from '../../rig/practiceBench/pumpKind.ts';
import { PRACTICE_SCENARIOS } from '../../rig/practiceBench/pumpTruth.ts';
import { createRandom } from '../../rig/practiceBench/random.ts';
import { PRACTICE_SET_UP } from '../../rig/practiceBench/setUp.ts';
import { PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { accepted } from '../support/accepted.ts';
import { dryStartScript } from '../support/practiceRun.ts';
import { type WatchedStart, watchedStart } from '../support/watchedStart.ts';
import { drawnPipe, drawnPlant } from './drawPlant.ts';

/** Lift over the limit of the pump as it stands there, from and to [1]. */
const LIFT_SHARE = { above: [1.1, 1.6], below: [0.3, 0.9] } as const;
export type LiftShare = keyof typeof LIFT_SHARE;

/** Lags of the flow meter, the bench's own beside others [s]. */
const FLOW_LAGS_S: readonly (number | undefined)[] = [undefined, 0.02, 0.05, 0.3, 1];
const OWN_FLOW_LAG_S = 0.06;
const READING_RATES_PER_S = [20, 50, 100] as const;
const DRAW_STREAM = 91;
/** So much gas comes back that the limit lies where a bench has room [1]. */
const CARRY_OVER = { least: 0.015, most: 0.12, share: 1 } as const;
const LEVEL_M = { least: 0.001, most: 0.4 } as const;
/** Half a finger of lift, or that of a house, is another draw. */
const LIFT_M = { least: 0.15, most: 2.5 } as const;
/** The flow meter ends at 40 l/min. */
const MOST_FLOW_M3_PER_S = 36 / 60_000;
const NEXT_SEED = 100_000;
const LONGEST_WATCH_S = 40;
const AFTER_PRIMED_S = 3;

export type DrawnStart = {
  readonly seed: number;
  readonly flowLagS: number;
  /** The limit is that of films as they are in the end: one that seals at first may lift more for a while. */
  readonly hasFilms: boolean;
  readonly start: WatchedStart;
};

/** A start at a lift that is known to be too high or low enough for the pump that stands there. */
export function drawStart(seed: number, side: LiftShare): DrawnStart {
  const random = createRandom(seed, DRAW_STREAM);
  const between = (from: number, to: number): number => from + (to - from) * random.uniform();
  const pump = pumpKind.options[seed % pumpKind.options.length] ?? 'externalGear';
  const scenario = PRACTICE_SCENARIOS[Math.floor(3 * random.uniform())] ?? 'worn';
  const drawn = drawnPlant(random, CARRY_OVER);
  const probe = createPracticeBench({ seed, scenario, pump, plant: drawn });
  const mostRPerMin = Math.min(1200, (60 * MOST_FLOW_M3_PER_S) / probe.truth().sweptVolumeM3PerRev);
  const speedRPerMin = Math.round(between(300, mostRPerMin));
  probe.command(`speed ${speedRPerMin}`);
  probe.step(0.01);
  const [least, most] = LIFT_SHARE[side];
  const liftM = between(least, most) * probe.truth().dryLift.limitM;
  if (!(liftM >= LIFT_M.least && liftM <= LIFT_M.most)) return drawStart(seed + NEXT_SEED, side);
  const levelM = between(LEVEL_M.least, LEVEL_M.most);
  const pipe = drawnPipe(random, {
    liftM,
    levelM,
    statedLiftM: liftM,
    statedLevelM: levelM,
    boreM: { value: PRACTICE_SET_UP.suctionPipeBoreM, standardUncertainty: 5e-5 },
    lengthStandardUncertaintyM: 0.002,
  });
  const lengthM = liftM + levelM;
  const flowLagS = FLOW_LAGS_S[Math.floor(FLOW_LAGS_S.length * random.uniform())];
  const readingsPerS = READING_RATES_PER_S[Math.floor(3 * random.uniform())] ?? 50;
  const start = watchedStart({
    seed,
    scenario,
    pump,
    plant: { ...drawn, ...pipe.plant },
    readingsPerS,
    setUp: { ...PRACTICE_SET_UP, staticLiftM: liftM, suctionPipeLengthM: lengthM },
    runSetUp: {
      ...PRACTICE_RUN_SET_UP,
      staticLiftM: { value: liftM, standardUncertainty: 0.005 },
      suctionPipeLengthM: lengthM,
      suctionPipe: pipe.suctionPipe,
    },
    script: dryStartScript(speedRPerMin, LONGEST_WATCH_S),
    endS: 2 + LONGEST_WATCH_S,
    afterPrimedS: AFTER_PRIMED_S,
    ...(flowLagS === undefined ? {} : { flowLagS }),
  });
  return { seed, flowLagS: flowLagS ?? OWN_FLOW_LAG_S, hasFilms: drawn.films !== undefined, start };
}

export type EventError = { readonly errorS: number; readonly expandedUncertaintyS: number };

export type MeasuredPriming = {
  readonly wasPrimed: boolean;
  /** Suspected not to have been dry; all of them were. */
  readonly isSuspected: boolean;
  readonly isFoundPrimed: boolean;
  /** Of the priming time; null: not primed, in truth or as found. */
  readonly priming: EventError | null;
  readonly events: Readonly<Record<'motorStart' | 'firstSuction' | 'oilAtInlet' | 'oilAtOutlet', EventError | null>>;
};

/** What is found in a start against what really happened. */
export function measurePriming({ start }: DrawnStart): MeasuredPriming {
  const { run, readings, truth, bench } = start;
  const { sweptVolumeM3PerRev } = bench.truth();
  const found = accepted(findPriming(readings, run.bench, sweptVolumeM3PerRev, run.setUp.deliveryLineVolumeM3));
  const events = accepted(findStartEvents(run, readings, sweptVolumeM3PerRev));
  const table = sourceTable(events.sources);
  const errorOf = (event: StartEvent, trueS: number | null): EventError | null =>
    event.seen && trueS !== null
      ? {
          errorS: event.atS.value - trueS,
          expandedUncertaintyS: stateUncertainty(event.atS, table).expandedUncertainty,
        }
      : null;
  const { primedAtS, motorStartS } = truth;
  let priming: EventError | null = null;
  if (found.arrival.primed && primedAtS !== null && motorStartS !== null) {
    const { primingTimeS } = found.arrival;
    priming = {
      errorS: primingTimeS.value - (primedAtS - motorStartS),
      expandedUncertaintyS: stateUncertainty(primingTimeS, sourceTable(found.sources)).expandedUncertainty,
    };
  }
  return {
    wasPrimed: primedAtS !== null,
    isSuspected: wetStart(run, readings, events, sweptVolumeM3PerRev) !== null,
    isFoundPrimed: found.arrival.primed,
    priming,
    events: {
      motorStart: errorOf(events.motorStart, motorStartS),
      firstSuction: errorOf(events.firstSuction, truth.firstSuctionS),
      oilAtInlet: errorOf(events.oilAtInlet, truth.oilAtInletS),
      oilAtOutlet: errorOf(events.oilAtOutlet, truth.oilAtOutletS),
    },
  };
}
