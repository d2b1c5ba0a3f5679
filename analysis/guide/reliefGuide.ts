import { siFrom, unitOf } from '../units.ts';
import { reliefSentence } from './guideSentences.ts';
import {
  type BenchAction,
  type GuideSetting,
  oneSpeedRevPerS,
  type RunGuide,
  STILLNESS_WINDOW_S,
  searchOf,
} from './guideSetting.ts';
import type { GuideState, ReliefPhase } from './guideState.ts';
import { type HeldMeans, heldMeans } from './heldMeans.ts';
import type { ReadingWindow } from './readingWindow.ts';
import { stillnessOf } from './stillness.ts';

/** From nothing to the highest pressure in so long: a minute or more lets flow be read against pressure [s]. */
const FULL_STROKE_S = 80;

/** A valve passes nearly all once this share of the flow is left: less than what counts as fully open, so that it is crossed [1]. */
const NEXT_TO_NO_FLOW = 0.04;

/** The way up ends this near the highest pressure; the way down this near the pressure of the open valve [1, Pa]. */
const NEAR_CEILING = 0.99;
const NEAR_OPEN_PA = 1.5e4;

/** How high: shares of the relief valve's setting, else of the duty's pressure: house limits, no source [1]. */
const OF_SETTING = 1.3;
const OF_DUTY = 2;
/** Of the gauge's range; common practice for a pressure that does not stay, no source [1]. */
const OF_RANGE = 0.75;

/** Quantities are read over this long, so that tooth ripple does not count [s]. */
const READ_OVER_S = 1;

/**
 * How high a relief run may go: 1.3 times the setting on the pump record, else twice the highest pressure of its duty,
 * and never over three quarters of the pressure gauge's range.
 *
 * @param setting - pump and bench [-]
 * @returns highest delivery pressure [Pa gauge]
 */
export function reliefCeilingPa(setting: Pick<GuideSetting, 'pump' | 'bench' | 'barometerPa'>): number {
  const { pump, bench, barometerPa } = setting;
  const gauge = bench.channels.find(({ channel }) => channel === 'deliveryPressure');
  const rangePa =
    gauge === undefined
      ? Number.POSITIVE_INFINITY
      : siFrom(gauge.range.max, unitOf(gauge.unit), barometerPa) - barometerPa;
  const dutyPa = (pump.duty?.demands ?? []).flatMap((demand) =>
    'at' in demand ? [demand.at.differentialPressurePa] : [],
  );
  const setPa = pump.reliefValveSettingPa;
  const pumpPa =
    setPa !== null ? OF_SETTING * setPa : dutyPa.length > 0 ? OF_DUTY * Math.max(...dutyPa) : Number.POSITIVE_INFINITY;
  return Math.min(OF_RANGE * rangePa, pumpPa);
}

function meanOf(window: ReadingWindow, channel: 'flow' | 'deliveryPressure'): number {
  const values = window.since(window.lastS() - READ_OVER_S).channels[channel]?.values ?? [];
  const good = [...values].filter(Number.isFinite);
  return good.reduce((sum, value) => sum + value, 0) / good.length;
}

/**
 * The guide of a relief run: valve open and everything at rest first, then closed slowly until next to no flow is left or
 * pump and bench allow no more, and opened again as slowly.
 *
 * @param setting - pump, bench, barometer [-]
 * @returns the guide, of three phases [-]
 */
export function reliefGuide(setting: GuideSetting): RunGuide {
  const speedRevPerS = oneSpeedRevPerS(setting.pump);
  const ceilingPa = reliefCeilingPa(setting);
  const search = searchOf(setting);
  const theoreticalM3PerS = setting.sweptVolumeM3PerRev * speedRevPerS;
  let phase: ReliefPhase = 'open';
  let phaseSinceS: number | null = null;
  let strokeS = 0;
  let open: HeldMeans | null = null;
  let stillness: GuideState['stillness'] = {};

  const gaugeOf = (pressurePa: number): number => pressurePa - setting.barometerPa;

  function stroke(next: ReliefPhase, nowS: number, fromPa: number, toPa: number): readonly BenchAction[] {
    phase = next;
    phaseSinceS = nowS;
    strokeS = Math.max(1, (FULL_STROKE_S * Math.abs(toPa - fromPa)) / ceilingPa);
    return [{ kind: 'rampDeliveryPressure', gaugePressurePa: toPa, overS: strokeS }];
  }

  function over(): readonly BenchAction[] {
    phase = 'over';
    return [{ kind: 'openValve' }, { kind: 'setSpeed', speedRevPerS: 0 }];
  }

  /** A hand at its stop gets no further and a run that steps itself must end; a person turns the valve as long as they like. */
  const isLate = (nowS: number): boolean =>
    setting.patienceS !== null && nowS - (phaseSinceS ?? nowS) > strokeS + setting.patienceS;

  function look(window: ReadingWindow): readonly BenchAction[] {
    const nowS = window.lastS();
    phaseSinceS ??= nowS;
    stillness = stillnessOf(window.since(nowS - STILLNESS_WINDOW_S), search, theoreticalM3PerS);
    if (phase === 'over') return [];
    if (open === null) {
      const held = heldMeans(window.since(phaseSinceS), search).at(-1);
      const isOutOfPatience = setting.patienceS !== null && nowS - phaseSinceS > setting.patienceS;
      if (held === undefined) return isOutOfPatience ? over() : [];
      open = held;
      return stroke('closing', nowS, gaugeOf(held.deliveryPressure), ceilingPa);
    }
    const gaugePa = gaugeOf(meanOf(window, 'deliveryPressure'));
    const openPa = gaugeOf(open.deliveryPressure);
    if (phase === 'closing') {
      const isAtTop = meanOf(window, 'flow') <= NEXT_TO_NO_FLOW * open.flow || gaugePa >= NEAR_CEILING * ceilingPa;
      return isAtTop || isLate(nowS) ? stroke('opening', nowS, gaugePa, Math.max(0, openPa)) : [];
    }
    return gaugePa <= openPa + NEAR_OPEN_PA || isLate(nowS) ? over() : [];
  }

  return {
    begin: () => [
      { kind: 'openSuctionAtPump' },
      { kind: 'flood' },
      { kind: 'openValve' },
      { kind: 'openSuction' },
      { kind: 'setSpeed', speedRevPerS },
    ],
    look,
    state: () => ({
      sentence: reliefSentence(phase, speedRevPerS, ceilingPa),
      stepsAre: 'phases',
      stepCount: 3,
      stepsDone: { open: 0, closing: 1, opening: 2, over: 3 }[phase],
      target: phase === 'open' ? { speedRevPerS, deliveryGaugePressurePa: null } : null,
      stillness,
      isFinished: phase === 'over',
    }),
  };
}
