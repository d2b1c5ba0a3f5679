import { findPriming } from '../dryLift/findPriming.ts';
import { blankedGuide } from './blankedGuide.ts';
import { type DeliveryPoint, deliveryPlan, takenMeans, withinFlowMeter } from './deliveryGuide.ts';
import { longestDryTurningS } from './dryTurning.ts';
import { deliveryEndSentence, deliverySentence, dryLiftSentence } from './guideSentences.ts';
import {
  type BenchAction,
  drySpeedRevPerS,
  type GuideSetting,
  type RunGuide,
  STILLNESS_WINDOW_S,
  searchOf,
} from './guideSetting.ts';
import type { GuideState, TakenPoint } from './guideState.ts';
import type { HeldMeans } from './heldMeans.ts';
import { reliefGuide } from './reliefGuide.ts';
import { withReturnPoint } from './returnPoint.ts';
import { stillnessOf } from './stillness.ts';
import { suctionGuide } from './suctionGuide.ts';

/** How long a dry start is watched at rest before the motor is started [s]. */
const REST_BEFORE_START_S = 2;

/** Turning is turning from here up [rev/s]. */
const TURNING_REV_PER_S = 0.5;

/** The guide of a run of this kind. */
export function createRunGuide(setting: GuideSetting): RunGuide {
  switch (setting.kind) {
    case 'delivery':
      return deliveryGuide(setting);
    case 'suction':
      return suctionGuide(setting);
    case 'relief':
      return reliefGuide(setting);
    case 'dryLift':
      return dryLiftGuide(setting);
    case 'blanked':
      return blankedGuide(setting);
  }
}

function actionsFor(point: DeliveryPoint): readonly BenchAction[] {
  return [
    { kind: 'setSpeed', speedRevPerS: point.speedRevPerS },
    { kind: 'setDeliveryPressure', gaugePressurePa: point.deliveryGaugePressurePa },
  ];
}

function deliveryGuide(setting: GuideSetting): RunGuide {
  const { pump, bench, sweptVolumeM3PerRev } = setting;
  const plan = withReturnPoint(withinFlowMeter(deliveryPlan(pump), bench, sweptVolumeM3PerRev));
  const search = searchOf(setting);
  const theoreticalM3PerS = setting.sweptVolumeM3PerRev * setting.pump.speedRangeRevPerS.max;
  let stepsDone = 0;
  let givenUp = 0;
  let taken: readonly TakenPoint[] = [];
  let targetSinceS: number | null = null;
  let stillness: GuideState['stillness'] = {};

  const present = (): DeliveryPoint | undefined => plan[stepsDone];
  return {
    begin: () => [
      { kind: 'openSuctionAtPump' },
      { kind: 'flood' },
      { kind: 'openValve' },
      ...(plan[0] === undefined ? [] : actionsFor(plan[0])),
    ],
    look: (window) => {
      const nowS = window.lastS();
      targetSinceS ??= nowS;
      stillness = stillnessOf(window.since(nowS - STILLNESS_WINDOW_S), search, theoreticalM3PerS);
      const point = present();
      if (point === undefined) return [];
      const held = takenMeans(window.since(targetSinceS), search, point);
      if (held !== null) {
        taken = [...taken, takenPoint(held)];
      } else {
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
        taken,
      };
    },
  };
}

function takenPoint(held: HeldMeans): TakenPoint {
  return {
    speedRevPerS: held.speed,
    differentialPressurePa: held.deliveryPressure - held.suctionPressure,
    flowM3PerS: held.flow,
    oilTemperatureK: held.oilTemperature,
  };
}

function dryLiftGuide(setting: GuideSetting): RunGuide {
  const speedRevPerS = drySpeedRevPerS(setting.pump);
  const search = searchOf(setting);
  const theoreticalM3PerS = setting.sweptVolumeM3PerRev * speedRevPerS;
  const longestS = longestDryTurningS(setting.wetness);
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
      if (turningS > longestS) {
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
    begin: () => [
      { kind: 'setSpeed', speedRevPerS: 0 },
      { kind: 'openSuctionAtPump' },
      { kind: 'emptyAndOil' },
      { kind: 'openValve' },
    ],
    look,
    state: () => ({
      sentence: dryLiftSentence(phase, longestS),
      stepsAre: 'phases',
      stepCount: 3,
      stepsDone: { atRest: 0, watching: 1, primed: 3, timeOut: 3 }[phase.phase],
      target: phase.phase === 'atRest' ? { speedRevPerS, deliveryGaugePressurePa: null } : null,
      stillness,
      isFinished: phase.phase === 'primed' || phase.phase === 'timeOut',
      dryTurning: { turnedS: phase.phase === 'watching' ? phase.turningS : 0, longestS },
    }),
  };
}
