import type { BenchRecord } from '../records/benchRecord.ts';
import type { Measured, WetnessClass } from '../records/fields.ts';
import type { PumpRecord } from '../records/pumpRecord.ts';
import type { RunKind } from '../records/runRecord.ts';
import { type HoldSearch, leadAfterChangeS } from '../steady/findHolds.ts';
import type { GuideState } from './guideState.ts';
import type { ReadingWindow } from './readingWindow.ts';

/** What a hand at the bench would do next; the practice bench is told the same. */
export type BenchAction =
  | { readonly kind: 'setSpeed'; readonly speedRevPerS: number }
  | { readonly kind: 'setDeliveryPressure'; readonly gaugePressurePa: number }
  /** Valve turned so slowly that the gauge climbs or falls evenly. */
  | { readonly kind: 'rampDeliveryPressure'; readonly gaugePressurePa: number; readonly overS: number }
  | { readonly kind: 'openValve' }
  /** Throttle in the suction pipe turned until the inlet stands at this absolute pressure. */
  | { readonly kind: 'setSuctionPressure'; readonly absolutePressurePa: number }
  | { readonly kind: 'openSuction' }
  /** Valve between pipe and pump, at the pump's flange. */
  | { readonly kind: 'shutSuctionAtPump' }
  | { readonly kind: 'openSuctionAtPump' }
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

export type GuideSetting = {
  readonly kind: RunKind;
  readonly pump: PumpRecord;
  readonly bench: BenchRecord;
  readonly barometerPa: number;
  readonly sweptVolumeM3PerRev: number;
  /** Between outlet and flow meter [m³]. */
  readonly deliveryLineVolume: Measured;
  /** How the pump was prepared: it says how long it may turn dry. */
  readonly wetness: WetnessClass;
  /** A set point that is not met in so long is given up: a run that steps itself must end. Null: a person decides [s]. */
  readonly patienceS: number | null;
};

/** Stillness is judged over this long [s]. */
export const STILLNESS_WINDOW_S = 3;

/** Speed of runs at one speed where no demand names one: a share of the greatest [1]. */
const HOUSE_SPEED_SHARE = 0.8;

export function searchOf({ bench, barometerPa }: Pick<GuideSetting, 'bench' | 'barometerPa'>): HoldSearch {
  return { limits: bench.holdLimits, barometerPa, leadS: leadAfterChangeS(bench.channels) };
}

/**
 * The speed of a run at one speed: the highest that the pump's demands name, else four fifths of its greatest.
 *
 * @param pump - the pump record [-]
 * @returns within its speed range [rev/s]
 */
export function oneSpeedRevPerS(pump: PumpRecord): number {
  const { min, max } = pump.speedRangeRevPerS;
  const named = (pump.duty?.demands ?? []).flatMap((demand) => ('at' in demand ? [demand.at.speedRevPerS] : []));
  const wanted = named.length > 0 ? Math.max(...named) : HOUSE_SPEED_SHARE * max;
  return Math.min(max, Math.max(min, wanted));
}

/** Dry starts where no demand names a speed: a share of the greatest [1]. */
const HOUSE_DRY_SPEED_SHARE = 0.5;

/**
 * Speed of a dry start: the fastest that the pump's priming demand allows, else half of its greatest.
 *
 * @param pump - the pump record [-]
 * @returns speed [rev/s]
 */
export function drySpeedRevPerS(pump: PumpRecord): number {
  const demanded = (pump.duty?.demands ?? []).flatMap((demand) =>
    demand.quantity === 'primingTime' ? [demand.atMostSpeedRevPerS] : [],
  );
  return demanded.length > 0 ? Math.min(...demanded) : HOUSE_DRY_SPEED_SHARE * pump.speedRangeRevPerS.max;
}
