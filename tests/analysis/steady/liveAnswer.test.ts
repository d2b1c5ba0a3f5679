import { describe, expect, it } from 'vitest';
import { deliveryPlan } from '../../../analysis/guide/deliveryGuide.ts';
import { findHolds, leadAfterChangeS } from '../../../analysis/steady/findHolds.ts';
import { holdState } from '../../../analysis/steady/holdState.ts';
import { recordPractice } from '../../support/practiceRun.ts';

describe('the live answer', () => {
  it('is that of the finished run: each set point that the guide took is a hold afterwards (seeds 1 to 3)', () => {
    for (let seed = 1; seed <= 3; seed += 1) {
      const { run, decoded } = recordPractice('delivery', 'healthy', seed, { lookEveryS: 0.5 });
      const barometerPa = run.setUp.barometerPa.value;
      const holds = findHolds(decoded.readings, {
        limits: run.bench.holdLimits,
        barometerPa,
        leadS: leadAfterChangeS(run.bench.channels),
      }).map((stretch, index) => holdState(decoded.readings, stretch, index + 1, run.bench, run.oil, barometerPa));
      // Within 3 % of the set point or 0.1 bar: what the guide calls taken.
      let from = 0;
      for (const { speedRevPerS, deliveryGaugePressurePa } of deliveryPlan(run.pump)) {
        const taken = holds.findIndex(
          (hold, index) =>
            index >= from &&
            Math.abs(hold.speedRevPerS.value - speedRevPerS) <= 0.03 * speedRevPerS &&
            Math.abs(hold.deliveryPressurePa.value - barometerPa - deliveryGaugePressurePa) <=
              Math.max(1e4, 0.03 * deliveryGaugePressurePa),
        );
        expect(taken, `seed ${seed}: ${speedRevPerS} rev/s, ${deliveryGaugePressurePa} Pa`).toBeGreaterThanOrEqual(
          from,
        );
        from = taken + 1;
      }
    }
  });
});
