import { describe, expect, it } from 'vitest';
import { findPriming } from '../../../analysis/dryLift/findPriming.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const SWEPT_VOLUME_M3_PER_REV = 14e-6;
const RUNNING_REV_PER_S = 10;
const FULL_FLOW_M3_PER_S = SWEPT_VOLUME_M3_PER_REV * RUNNING_REV_PER_S;
const MOTOR_START_S = 1.5;
const NO_LINE = { value: 0, standardUncertainty: 0 };

/** A ramp of half a second seen through a first-order lag: exact response of a lag to a ramp that ends. */
function laggedRamp(atS: number, lagS: number): number {
  const rampS = 0.5;
  const response = (tS: number): number => (tS <= 0 ? 0 : tS - lagS * (1 - Math.exp(-tS / lagS)));
  const sinceS = atS - MOTOR_START_S;
  return (RUNNING_REV_PER_S * (response(sinceS) - response(sinceS - rampS))) / rampS;
}

function dryStart(arrivalS: number | null, noise: () => number, burstS: number | null = null) {
  const flowLagS = 0.06;
  return sampledReadings(20, 50, {
    speed: (atS) => laggedRamp(atS, 0.05) + 0.01 * noise(),
    flow: (atS) => {
      const inBurst = burstS !== null && atS >= burstS && atS < burstS + 0.8;
      const sinceS = arrivalS === null ? -1 : atS - arrivalS;
      const risen = sinceS <= 0 ? 0 : FULL_FLOW_M3_PER_S * (1 - Math.exp(-sinceS / flowLagS));
      return (inBurst ? 0.8 * FULL_FLOW_M3_PER_S : risen) + 3e-7 * noise();
    },
  });
}

describe('findPriming', () => {
  it('finds a step of flow behind a lagging meter within its stated interval (seeds 1 to 20)', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const found = findPriming(dryStart(4.7, normal(seed)), inventedBench(), SWEPT_VOLUME_M3_PER_REV, NO_LINE);
      if (!found.ok || !found.value.arrival.primed) throw new Error('not primed');
      // By construction: motor start 1.5 s, oil at the outlet 4.7 s → 3.2 s.
      expect(Math.abs(found.value.arrival.primingTimeS.value - 3.2)).toBeLessThan(0.05);
      expect(Math.abs(found.value.motorStartS - MOTOR_START_S)).toBeLessThan(0.03);
      expect(found.value.speedRevPerS).toBeCloseTo(RUNNING_REV_PER_S, 1);
    }
  });

  it('does not take a burst of foam for delivery', () => {
    const found = findPriming(dryStart(9, normal(3), 4), inventedBench(), SWEPT_VOLUME_M3_PER_REV, NO_LINE);
    if (!found.ok || !found.value.arrival.primed) throw new Error('not primed');
    expect(found.value.arrival.sustainedDeliveryS).toBeGreaterThan(8.9);
  });

  it('says for how long it watched when no oil came', () => {
    const found = findPriming(dryStart(null, normal(4)), inventedBench(), SWEPT_VOLUME_M3_PER_REV, NO_LINE);
    if (!found.ok || found.value.arrival.primed) throw new Error('primed');
    // 20 s of record, motor start at 1.5 s.
    expect(found.value.arrival.watchedForS).toBeGreaterThan(18.3);
    expect(found.value.arrival.watchedForS).toBeLessThan(18.6);
  });

  it('refuses a record without a motor start, one already running, and flow from the first reading on', () => {
    const codeOf = (speed: (atS: number) => number, flow: (atS: number) => number): string => {
      const found = findPriming(
        sampledReadings(10, 50, { speed, flow }),
        inventedBench(),
        SWEPT_VOLUME_M3_PER_REV,
        NO_LINE,
      );
      return found.ok ? 'found' : found.reason.code;
    };
    expect(
      codeOf(
        () => 0,
        () => 0,
      ),
    ).toBe('NO_MOTOR_START');
    expect(
      codeOf(
        () => RUNNING_REV_PER_S,
        () => 0,
      ),
    ).toBe('ALREADY_RUNNING');
    expect(
      codeOf(
        (atS) => laggedRamp(atS, 0.05),
        () => FULL_FLOW_M3_PER_S,
      ),
    ).toBe('FLOW_BEFORE_START');
    const withoutFlow = findPriming(sampledReadings(10, 50, { speed: () => 1 }), inventedBench(), 1e-5, NO_LINE);
    expect(withoutFlow.ok ? 'found' : withoutFlow.reason.code).toBe('CHANNEL_MISSING');
  });
});
