import { findPriming } from '../dryLift/findPriming.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Measured } from '../records/fields.ts';
import type { PumpRecord } from '../records/pumpRecord.ts';
import type { RunKind } from '../records/runRecord.ts';
import { type HoldSearch, leadAfterChangeS } from '../steady/findHolds.ts';
import { type DeliveryPoint, deliveryPlan, isPointTaken } from './deliveryGuide.ts';
import { deliveryEndSentence, deliverySentence, dryLiftSentence, LONGEST_DRY_TURNING_S } from './guideSentences.ts';
import type { GuideState } from './guideState.ts';
import type { ReadingWindow } from './readingWindow.ts';
import { stillnessOf } from './stillness.ts';

/** What a hand at the bench would do next; the practice bench is told the same. */
export type BenchAction =
  | { readonly kind: 'setSpeed'; readonly speedRevPerS: number }
  | { readonly kind: 'setDeliveryPressure'; readonly gaugePressurePa: number }
  | { readonly kind: 'openValve' }
  | { readonly kind: 'flood' }
  | { readonly kind: 'emptyAndOil' };

/** Leads through a run; told nothing but readings, so that it guides a real bench and the practice bench alike. */
export type RunGuide = {
  /** What is to be done before the first reading counts. */
  readonly begin: () => readonly BenchAction[];
  /** Looks at the readings so far; what is to be done now. */
  readonly look: (window: ReadingWindow) => readonly BenchAction[];
  readonly state: () => GuideState;
};

/** Stillness is judged over this long [s]. */
const STILLNESS_WINDOW_S = 3;

/** How long a dry start is watched at rest before the motor is started [s]. */
const REST_BEFORE_START_S = 2;

/** Turning is turning from here up [rev/s]. */
const TURNING_REV_PER_S = 0.5;

/** Dry starts where no demand names a speed: a share of the greatest [1]. */
const HOUSE_DRY_SPEED_SHARE = 0.5;

export type GuideSetting = {
  readonly kind: RunKind;
  readonly pump: PumpRecord;
  readonly bench: BenchRecord;
  readonly barometerPa: number;
  readonly sweptVolumeM3PerRev: number;
  /** Between outlet and flow meter [m³]. */
  readonly deliveryLineVolume: Measured;
  /** A set point that is not met in so long is given up: a run that steps itself must end. Null: a person decides [s]. */
  readonly patienceS: number | null;
};

export function createRunGuide(setting: GuideSetting): RunGuide {
  return setting.kind === 'delivery' ? deliveryGuide(setting) : dryLiftGuide(setting);
}

function searchOf({ bench, barometerPa }: GuideSetting): HoldSearch {
  return { limits: bench.holdLimits, barometerPa, leadS: leadAfterChangeS(bench.channels) };
}

function actionsFor(point: DeliveryPoint): readonly BenchAction[] {
  return [
    { kind: 'setSpeed', speedRevPerS: point.speedRevPerS },
    { kind: 'setDeliveryPressure', gaugePressurePa: point.deliveryGaugePressurePa },
  ];
}

function deliveryGuide(setting: GuideSetting): RunGuide {
  const plan = deliveryPlan(setting.pump);
  const search = searchOf(setting);
  const theoreticalM3PerS = setting.sweptVolumeM3PerRev * setting.pump.speedRangeRevPerS.max;
  let stepsDone = 0;
  let givenUp = 0;
  let targetSinceS: number | null = null;
  let stillness: GuideState['stillness'] = {};

  const present = (): DeliveryPoint | undefined => plan[stepsDone];
  return {
    begin: () => [{ kind: 'flood' }, { kind: 'openValve' }, ...(plan[0] === undefined ? [] : actionsFor(plan[0]))],
    look: (window) => {
      const nowS = window.lastS();
      targetSinceS ??= nowS;
      stillness = stillnessOf(window.since(nowS - STILLNESS_WINDOW_S), search, theoreticalM3PerS);
      const point = present();
      if (point === undefined) return [];
      if (!isPointTaken(window.since(targetSinceS), search, point)) {
        const isOutOfPatience = setting.patienceS !== null && nowS - targetSinceS > setting.patienceS;
        if (!isOutOfPatience) return [];
        givenUp += 1;
      }
      stepsDone += 1;
      targetSinceS = nowS;
      const next = present();
      return next === undefined ? [{ kind: 'openValve' }, { kind: 'setSpeed', speedRevPerS: 0 }] : actionsFor(next);
    },
    state: () => {
      const point = present();
      return {
        sentence: point === undefined ? deliveryEndSentence(plan.length, givenUp) : deliverySentence(point, stillness),
        stepsAre: 'points',
        stepCount: plan.length,
        stepsDone,
        target: point ?? null,
        stillness,
        isFinished: point === undefined,
      };
    },
  };
}

/** Speed of a dry start: the fastest that the pump's priming demand allows. */
function drySpeedRevPerS(pump: PumpRecord): number {
  const demanded = (pump.duty?.demands ?? []).flatMap((demand) =>
    demand.quantity === 'primingTime' ? [demand.atMostSpeedRevPerS] : [],
  );
  return demanded.length > 0 ? Math.min(...demanded) : HOUSE_DRY_SPEED_SHARE * pump.speedRangeRevPerS.max;
}

function dryLiftGuide(setting: GuideSetting): RunGuide {
  const speedRevPerS = drySpeedRevPerS(setting.pump);
  const search = searchOf(setting);
  const theoreticalM3PerS = setting.sweptVolumeM3PerRev * speedRevPerS;
  let runSinceS: number | null = null;
  let isStarted = false;
  let stillness: GuideState['stillness'] = {};
  let phase: Parameters<typeof dryLiftSentence>[0] = { phase: 'atRest', speedRevPerS };

  const look: RunGuide['look'] = (window) => {
    const nowS = window.lastS();
    runSinceS ??= nowS;
    stillness = stillnessOf(window.since(nowS - STILLNESS_WINDOW_S), search, theoreticalM3PerS);
    if (phase.phase === 'primed' || phase.phase === 'timeOut') return [];
    const found = findPriming(
      window.since(runSinceS),
      setting.bench,
      setting.sweptVolumeM3PerRev,
      setting.deliveryLineVolume,
    );
    const turningRevPerS = window.last()?.values.speed ?? 0;
    if (found.ok && turningRevPerS > TURNING_REV_PER_S) {
      const turningS = nowS - runSinceS - found.value.motorStartS;
      if (found.value.arrival.primed) {
        phase = { phase: 'primed', sustainedDeliveryS: found.value.arrival.sustainedDeliveryS };
        return [{ kind: 'setSpeed', speedRevPerS: 0 }];
      }
      if (turningS > LONGEST_DRY_TURNING_S) {
        phase = { phase: 'timeOut' };
        return [{ kind: 'setSpeed', speedRevPerS: 0 }];
      }
      phase = { phase: 'watching', turningS };
      return [];
    }
    if (!isStarted && nowS - runSinceS >= REST_BEFORE_START_S) {
      isStarted = true;
      return [{ kind: 'setSpeed', speedRevPerS }];
    }
    return [];
  };
  return {
    begin: () => [{ kind: 'setSpeed', speedRevPerS: 0 }, { kind: 'emptyAndOil' }, { kind: 'openValve' }],
    look,
    state: () => ({
      sentence: dryLiftSentence(phase),
      stepsAre: 'phases',
      stepCount: 3,
      stepsDone: { atRest: 0, watching: 1, primed: 3, timeOut: 3 }[phase.phase],
      target: phase.phase === 'atRest' ? { speedRevPerS, deliveryGaugePressurePa: null } : null,
      stillness,
      isFinished: phase.phase === 'primed' || phase.phase === 'timeOut',
    }),
  };
}
