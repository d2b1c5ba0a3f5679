/** The hand at a valve: turns it slowly until the gauge shows what was asked, then leaves it alone. */
export type ValveHand = {
  readonly opening: () => number;
  /** Sets the valve and takes the hand away. */
  readonly setOpening: (opening: number) => void;
  readonly seekGauge: (gaugePa: number) => void;
  /** Lets the gauge climb or fall evenly from what it shows now, over so long. */
  readonly rampGauge: (gaugePa: number, overS: number) => void;
  readonly isTurning: () => boolean;
  readonly advance: (gaugePa: number, isDelivering: boolean, stepS: number) => void;
};

/** Nobody shuts the valve of a displacement pump: the hand stops here [1]. */
const LEAST_OPENING = 0.01;
/** In a slow climb it goes further: by then the pump's relief valve may pass what this one does not [1]. */
const LEAST_RAMP_OPENING = 0.004;
/** The hand is quicker the further off the gauge is, up to this many e-folds of opening a second. */
const QUICKEST_PER_S = 0.7;
const PATIENCE_S = 0.35;
/** Met when the gauge has stayed this near for this long: relative, or absolute at low pressure. */
const NEAR_SHARE = 0.004;
const NEAR_PA = 500;
const STAYED_S = 1.5;
/** The eye follows the needle, not its flutter [s]. */
const EYE_LAG_S = 0.1;

/**
 * A hand on the valve, fully open at first. At the throttle of the suction pipe the gauge is the drop below the barometer:
 * it goes with the opening as the delivery pressure does.
 *
 * @returns the hand; its opening runs from 0.01 to 1, in a slow climb from 0.004 [1]
 */
export function createValveHand(): ValveHand {
  let opening = 1;
  let soughtPa: number | undefined;
  let seenPa = 0;
  let nearSinceS = 0;
  let leastOpening = LEAST_OPENING;
  /** What is left of a climb or fall of the sought pressure. */
  let ramp = { toPa: 0, perS: 0, leftS: 0 };

  return {
    opening: () => opening,
    setOpening(next) {
      opening = Math.max(LEAST_OPENING, next);
      soughtPa = undefined;
    },
    seekGauge(gaugePa) {
      soughtPa = gaugePa;
      nearSinceS = 0;
      leastOpening = LEAST_OPENING;
      ramp = { toPa: gaugePa, perS: 0, leftS: 0 };
    },
    rampGauge(gaugePa, overS) {
      soughtPa = seenPa;
      nearSinceS = 0;
      leastOpening = LEAST_RAMP_OPENING;
      ramp = { toPa: gaugePa, perS: (gaugePa - seenPa) / overS, leftS: overS };
    },
    isTurning: () => soughtPa !== undefined,
    advance(gaugePa, isDelivering, stepS) {
      seenPa += ((gaugePa - seenPa) * stepS) / EYE_LAG_S;
      if (soughtPa === undefined || !isDelivering) return;
      if (ramp.leftS > 0) {
        ramp = { ...ramp, leftS: ramp.leftS - stepS };
        soughtPa = ramp.toPa - ramp.perS * Math.max(0, ramp.leftS);
        nearSinceS = 0;
      }
      // At a stop of the valve it is as near as it can come.
      const isAtStop = seenPa > soughtPa ? opening === 1 : opening === leastOpening;
      const isNear = isAtStop || Math.abs(seenPa - soughtPa) <= Math.max(NEAR_PA, NEAR_SHARE * soughtPa);
      nearSinceS = isNear ? nearSinceS + stepS : 0;
      if (nearSinceS >= STAYED_S) {
        soughtPa = undefined;
        return;
      }
      // Pressure goes with the inverse square of the opening, so half its logarithm is missing in the valve.
      const missing = Math.log(Math.max(seenPa, NEAR_PA) / Math.max(soughtPa, NEAR_PA)) / 2;
      const ratePerS = Math.max(-QUICKEST_PER_S, Math.min(QUICKEST_PER_S, missing / PATIENCE_S));
      opening = Math.max(leastOpening, Math.min(1, opening * Math.exp(ratePerS * stepS)));
    },
  };
}
