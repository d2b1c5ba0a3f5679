import { suctionEndSentence, suctionSentence } from './guideSentences.ts';
import {
  type BenchAction,
  type GuideSetting,
  oneSpeedRevPerS,
  type RunGuide,
  STILLNESS_WINDOW_S,
  searchOf,
} from './guideSetting.ts';
import type { GuideState, SuctionPoint } from './guideState.ts';
import { type HeldMeans, heldMeans } from './heldMeans.ts';
import { stillnessOf } from './stillness.ts';

/** Inlet pressures below the open suction, absolute; the deepest is a house limit for a pump full of oil, no source [Pa]. */
const FIRST_PA = 8e4;
const DEEPEST_PA = 3e4;

/** From one to the next: more than may pass within one hold, or two would be taken for one [Pa], [1]. */
const STEP_PA = 7e3;
const OF_HOLD_SPAN = 1.15;

/** The first of them lies so much below the open suction, or it would say the same twice [Pa]. */
const LEAST_STEP_PA = 4e3;

/** No deeper once this share of the flow is lost: 5 % is looked for, and cavitation wears the pump [1]. */
const ENOUGH_LOST = 0.1;

/** Delivery pressure at the open suction. It leaves the gauge above nought down to the deepest inlet pressure [Pa gauge]. */
const OPEN_SUCTION_GAUGE_PA = 1e5;

/** Set points count as met this near; 5 kPa of pressure difference are about a thousandth of the flow [1, Pa]. */
const SPEED_SHARE = 0.03;
const SUCTION_PA = 1.5e3;
const DELIVERY_PA = 5e3;

/** Share of the flow per turn that is missing against the first hold [1]. */
function lostShare(held: HeldMeans, reference: HeldMeans): number {
  return 1 - (held.flow / held.speed) * (reference.speed / reference.flow);
}

/** Inlet pressures of the plan, the smallest vacuum first [Pa]. */
function inletPressuresPa({ bench }: GuideSetting): readonly number[] {
  const stepPa = Math.max(STEP_PA, OF_HOLD_SPAN * 2 * bench.holdLimits.pressureBelow2BarPa);
  const count = Math.floor((FIRST_PA - DEEPEST_PA) / stepPa) + 1;
  return Array.from({ length: count }, (_, index) => FIRST_PA - index * stepPa);
}

/**
 * The guide of a suction run: one speed, suction open first, then a deeper vacuum from hold to hold until a tenth of the
 * flow is lost or the inlet stands at 0.3 bar absolute. The pressure difference is kept, so that slip stays out of it.
 *
 * @param setting - pump, bench, barometer [-]
 * @returns the guide; its points become fewer once the open suction is known [-]
 */
export function suctionGuide(setting: GuideSetting): RunGuide {
  const speedRevPerS = oneSpeedRevPerS(setting.pump);
  const search = searchOf(setting);
  const { barometerPa } = setting;
  const theoreticalM3PerS = setting.sweptVolumeM3PerRev * speedRevPerS;
  let points: readonly SuctionPoint[] = [null, ...inletPressuresPa(setting)].map((suctionPressurePa) => ({
    speedRevPerS,
    suctionPressurePa,
  }));
  let stepsDone = 0;
  let reference: HeldMeans | null = null;
  let last: HeldMeans | null = null;
  let targetSinceS: number | null = null;
  let stillness: GuideState['stillness'] = {};

  /** The valve is opened as the vacuum deepens: with the pressure difference of the first hold, slip is the same in all. */
  const gaugeOf = ({ suctionPressurePa }: SuctionPoint): number =>
    suctionPressurePa === null || reference === null
      ? OPEN_SUCTION_GAUGE_PA
      : reference.deliveryPressure - reference.suctionPressure + suctionPressurePa - barometerPa;
  const isMet = (held: HeldMeans, point: SuctionPoint): boolean =>
    Math.abs(held.speed - speedRevPerS) <= SPEED_SHARE * speedRevPerS &&
    Math.abs(held.deliveryPressure - barometerPa - gaugeOf(point)) <= DELIVERY_PA &&
    (point.suctionPressurePa === null || Math.abs(held.suctionPressure - point.suctionPressurePa) <= SUCTION_PA);
  const actionsFor = (point: SuctionPoint): readonly BenchAction[] => [
    ...(point.suctionPressurePa === null
      ? []
      : [{ kind: 'setSuctionPressure', absolutePressurePa: point.suctionPressurePa } as const]),
    { kind: 'setDeliveryPressure', gaugePressurePa: gaugeOf(point) },
  ];

  /** The first hold says where the open suction stands, and so which of the deeper points are deeper. */
  function took(held: HeldMeans): void {
    reference ??= held;
    last = held;
    stepsDone += 1;
    const openPa = reference.suctionPressure;
    if (stepsDone === 1) {
      points = points.filter(
        ({ suctionPressurePa }) => suctionPressurePa === null || suctionPressurePa < openPa - LEAST_STEP_PA,
      );
    }
    if (lostShare(held, reference) >= ENOUGH_LOST) points = points.slice(0, stepsDone);
  }

  return {
    begin: () => [
      { kind: 'openSuctionAtPump' },
      { kind: 'flood' },
      { kind: 'openValve' },
      { kind: 'openSuction' },
      { kind: 'setSpeed', speedRevPerS },
      ...points.slice(0, 1).flatMap(actionsFor),
    ],
    look: (window) => {
      const nowS = window.lastS();
      targetSinceS ??= nowS;
      stillness = stillnessOf(window.since(nowS - STILLNESS_WINDOW_S), search, theoreticalM3PerS);
      const point = points[stepsDone];
      if (point === undefined) return [];
      const held = heldMeans(window.since(targetSinceS), search).find((means) => isMet(means, point));
      if (held !== undefined) took(held);
      else if (setting.patienceS === null || nowS - targetSinceS <= setting.patienceS) return [];
      // A throttle or a pump that cannot reach this point reaches no deeper one.
      else points = points.slice(0, stepsDone);
      targetSinceS = nowS;
      const next = points[stepsDone];
      return next === undefined
        ? [{ kind: 'openSuction' }, { kind: 'openValve' }, { kind: 'setSpeed', speedRevPerS: 0 }]
        : actionsFor(next);
    },
    state: () => {
      const point = points[stepsDone];
      return {
        sentence:
          point === undefined
            ? suctionEndSentence(stepsDone, last?.suctionPressure ?? null)
            : suctionSentence(point, gaugeOf(point), stillness),
        stepsAre: 'points',
        stepCount: points.length,
        stepsDone,
        target: point === undefined ? null : { ...point, deliveryGaugePressurePa: gaugeOf(point) },
        stillness,
        isFinished: point === undefined,
      };
    },
  };
}
