import type { Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { PumpRecord } from '../records/pumpRecord.ts';
import type { HoldSearch } from '../steady/holdSearch.ts';
import { siFrom, unitOf } from '../units.ts';
import { type HeldMeans, heldMeans } from './heldMeans.ts';

/** A set point of a delivery run. */
export type DeliveryPoint = {
  readonly speedRevPerS: number;
  readonly deliveryGaugePressurePa: number;
};

/** Where no duty says better [1, Pa]. */
const HOUSE_SPEED_SHARE = 0.6;
const HOUSE_PRESSURE_PA = 3e5;

/** Speeds and pressures of the plan as shares of the duty's: they enclose it [1]. */
const SPEED_SHARES = [1, 0.6, 1.25] as const;
const PRESSURE_SHARES_UP = [0.2, 0.6, 1, 1.3] as const;

/** A point counts as met within this share of the set point, or this much pressure [1, Pa]. */
const SET_POINT_SHARE = 0.03;
const SET_POINT_PRESSURE_PA = 1e4;

/** The highest pressure and the highest speed that the pump's demands name; house values where none does. */
function dutyOf(pump: PumpRecord): DeliveryPoint {
  const points = (pump.duty?.demands ?? []).flatMap((demand) => ('at' in demand ? [demand.at] : []));
  const { max } = pump.speedRangeRevPerS;
  if (points.length === 0) {
    return { speedRevPerS: HOUSE_SPEED_SHARE * max, deliveryGaugePressurePa: HOUSE_PRESSURE_PA };
  }
  return {
    speedRevPerS: Math.max(...points.map(({ speedRevPerS }) => speedRevPerS)),
    deliveryGaugePressurePa: Math.max(...points.map(({ differentialPressurePa }) => differentialPressurePa)),
  };
}

/**
 * The set points of a delivery run: three speeds about the duty's, the pressures up at the first, down at the second and
 * up again at the third, the first point repeated last so that drift shows.
 *
 * @param pump - the pump record; its speed range is kept [-]
 * @returns set points in the order in which they are taken [rev/s, Pa gauge]
 */
export function deliveryPlan(pump: PumpRecord): readonly DeliveryPoint[] {
  const duty = dutyOf(pump);
  const { min, max } = pump.speedRangeRevPerS;
  const up = PRESSURE_SHARES_UP.map((share) => share * duty.deliveryGaugePressurePa);
  const points = SPEED_SHARES.flatMap((share, index) => {
    const speedRevPerS = Math.min(max, Math.max(min, share * duty.speedRevPerS));
    const pressures = index % 2 === 0 ? up : [...up].reverse();
    return pressures.map((deliveryGaugePressurePa) => ({ speedRevPerS, deliveryGaugePressurePa }));
  });
  return [...points, ...points.slice(0, 1)];
}

/** Of the flow meter's range: tip drag and ripple carry a little more than V_g n [1]. */
const SHARE_OF_FLOW_RANGE = 0.95;

/**
 * A plan that the bench can measure: no speed at which the pump would bring more than the flow meter shows.
 *
 * @param plan - set points [rev/s, Pa gauge]
 * @param bench - its flow meter's range counts; without one the plan stays as it is [-]
 * @param sweptVolumeM3PerRev - V_g of the pump [m³/rev]
 * @returns the same set points, speeds above that lowered to it [rev/s, Pa gauge]
 */
export function withinFlowMeter(
  plan: readonly DeliveryPoint[],
  bench: Pick<BenchRecord, 'channels'>,
  sweptVolumeM3PerRev: number,
): readonly DeliveryPoint[] {
  const meter = bench.channels.find(({ channel }) => channel === 'flow');
  if (meter === undefined) return plan;
  const mostM3PerS = SHARE_OF_FLOW_RANGE * siFrom(meter.range.max, unitOf(meter.unit), 0);
  const fastestRevPerS = mostM3PerS / sweptVolumeM3PerRev;
  return plan.map((point) => ({ ...point, speedRevPerS: Math.min(point.speedRevPerS, fastestRevPerS) }));
}

/**
 * What a hold of a set point stood at: one found by the same function as in the finished run, whose mean speed and
 * delivery pressure are those of the set point.
 *
 * @param window - readings since the set point was given [n readings, oldest first]
 * @param search - hold limits, barometer, lead [-]
 * @param point - the set point [rev/s, Pa gauge]
 * @returns means of the hold; null: the point has not been taken [SI]
 */
export function takenMeans(window: Readings, search: HoldSearch, point: DeliveryPoint): HeldMeans | null {
  const isMet = ({ speed, deliveryPressure }: HeldMeans): boolean =>
    Math.abs(speed - point.speedRevPerS) <= SET_POINT_SHARE * point.speedRevPerS &&
    Math.abs(deliveryPressure - search.barometerPa - point.deliveryGaugePressurePa) <=
      Math.max(SET_POINT_PRESSURE_PA, SET_POINT_SHARE * point.deliveryGaugePressurePa);
  return heldMeans(window, search).find(isMet) ?? null;
}
