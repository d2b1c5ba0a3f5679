import { mean } from 'simple-statistics';
import { goodValues, type Readings } from '../readings.ts';
import { BLANKED_STANDS_S, type BlankedPhase, blankedAdvice, blankedSentence } from './blankedWords.ts';
import { longestDryTurningS } from './dryTurning.ts';
import {
  type BenchAction,
  drySpeedRevPerS,
  type GuideSetting,
  type RunGuide,
  STILLNESS_WINDOW_S,
  searchOf,
} from './guideSetting.ts';
import type { GuideState } from './guideState.ts';
import { stillnessOf } from './stillness.ts';

/** How long each start is watched at rest before the motor turns: the fit needs two seconds [s]. */
const REST_BEFORE_START_S = 2.5;
/** The suction's mean over this long says whether it is back [s]. */
const LOOK_AT_REST_S = 0.5;
/** The slower of the two speeds, as a share of the other [1]. */
const SLOW_SHARE = 0.5;
/** Turning is turning from here up [rev/s], and at its speed from this share of it [1]. */
const TURNING_REV_PER_S = 0.5;
const AT_SPEED_SHARE = 0.95;
/** Means of the two halves of the window no further apart: the suction stands [Pa]. */
const STANDS_PA = 50;
/** Back at the atmosphere: less than what the analysis allows [Pa]. */
const COME_BACK_PA = 50;

function meanOf(readings: Readings, channel: 'suctionPressure' | 'speed'): number {
  const column = readings.channels[channel];
  const good = column === undefined ? [] : goodValues(column);
  return good.length === 0 ? Number.NaN : mean(good);
}

/**
 * The guide of a blanked run: suction shut at the flange, half the speed of a dry start first and then the whole, each until
 * the suction stands, and the suction back at the atmosphere between them. A pump that must never run dry is not led.
 *
 * @param setting - pump, bench, barometer [-]
 * @returns the guide, of four phases [-]
 */
export function blankedGuide(setting: GuideSetting): RunGuide {
  const { pump, patienceS } = setting;
  const fastRevPerS = drySpeedRevPerS(pump);
  const speeds = [Math.max(pump.speedRangeRevPerS.min, SLOW_SHARE * fastRevPerS), fastRevPerS];
  const search = searchOf(setting);
  const advice = blankedAdvice(pump);
  const longestS = longestDryTurningS(setting.wetness);
  let phase: BlankedPhase = 'atRest';
  let phaseSinceS: number | null = null;
  let startsDone = 0;
  let restPa = Number.NaN;
  let backSinceS: number | null = null;
  let turnedBeforeS = 0;
  let turnedS = 0;
  let isTold = false;
  let hasStopped = true;
  let stillness: GuideState['stillness'] = {};

  const speedRevPerS = (): number => speeds[startsDone] ?? fastRevPerS;

  function enter(next: BlankedPhase, nowS: number): void {
    phase = next;
    phaseSinceS = nowS;
    backSinceS = null;
    isTold = false;
  }

  function stop(next: BlankedPhase, nowS: number): readonly BenchAction[] {
    turnedBeforeS = turnedS;
    hasStopped = false;
    enter(next, nowS);
    return [{ kind: 'setSpeed', speedRevPerS: 0 }];
  }

  const isFinished = (): boolean => !advice.isAllowed || phase === 'over' || phase === 'oneOnly' || phase === 'timeOut';

  const look: RunGuide['look'] = (window) => {
    const nowS = window.lastS();
    phaseSinceS ??= nowS;
    const inPhaseS = nowS - phaseSinceS;
    stillness = stillnessOf(window.since(nowS - STILLNESS_WINDOW_S), search, setting.sweptVolumeM3PerRev * fastRevPerS);
    if (isFinished()) return [];
    const turningRevPerS = window.last()?.values.speed ?? 0;
    if (phase === 'drawing') {
      turnedS = turnedBeforeS + inPhaseS;
      if (turnedS > longestS) return stop('timeOut', nowS);
      const older = window.since(nowS - BLANKED_STANDS_S);
      const newer = meanOf(window.since(nowS - BLANKED_STANDS_S / 2), 'suctionPressure');
      const moved = Math.abs(2 * (meanOf(older, 'suctionPressure') - newer));
      const isAtSpeed = meanOf(older, 'speed') >= AT_SPEED_SHARE * speedRevPerS();
      if (!isAtSpeed || inPhaseS < BLANKED_STANDS_S || !(moved <= STANDS_PA)) return [];
      startsDone += 1;
      return stop(startsDone < speeds.length ? 'comingBack' : 'over', nowS);
    }
    if (turningRevPerS > TURNING_REV_PER_S) {
      if (hasStopped) enter('drawing', nowS);
      return [];
    }
    hasStopped = true;
    const suctionPa = meanOf(window.since(nowS - LOOK_AT_REST_S), 'suctionPressure');
    if (phase === 'comingBack' && !(Math.abs(suctionPa - restPa) <= COME_BACK_PA)) {
      backSinceS = null;
      const isLate = patienceS !== null && inPhaseS > patienceS;
      return isLate ? stop('oneOnly', nowS) : [];
    }
    if (phase === 'atRest') restPa = suctionPa;
    backSinceS ??= nowS;
    if (isTold || nowS - backSinceS < REST_BEFORE_START_S) return [];
    isTold = true;
    return [{ kind: 'setSpeed', speedRevPerS: speedRevPerS() }];
  };
  return {
    begin: () =>
      advice.isAllowed
        ? [
            { kind: 'setSpeed', speedRevPerS: 0 },
            { kind: 'emptyAndOil' },
            { kind: 'openValve' },
            { kind: 'shutSuctionAtPump' },
          ]
        : [{ kind: 'setSpeed', speedRevPerS: 0 }],
    look,
    state: () => ({
      sentence: advice.isAllowed ? blankedSentence(phase, speedRevPerS(), { turnedS, longestS }) : advice.text,
      stepsAre: 'phases',
      stepCount: 4,
      stepsDone: isFinished() ? 4 : 2 * startsDone + (phase === 'drawing' ? 1 : 0),
      target:
        isFinished() || phase === 'drawing' ? null : { speedRevPerS: speedRevPerS(), deliveryGaugePressurePa: null },
      stillness,
      isFinished: isFinished(),
      dryTurning: { turnedS, longestS },
    }),
  };
}
