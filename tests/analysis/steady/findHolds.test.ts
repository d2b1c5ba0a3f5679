import { describe, expect, it } from 'vitest';
import { QUALITY } from '../../../analysis/readings.ts';
import { holdLimits } from '../../../analysis/records/benchRecord.ts';
import { findHolds, type HoldSearch } from '../../../analysis/steady/findHolds.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const SEARCH: HoldSearch = { limits: holdLimits.parse({}), barometerPa: 101325, leadS: 1 };

/** Three set points of 12 s each, with straight ramps of 2 s between them. */
function stepped(from: number, to: number, further: number): (atS: number) => number {
  return (atS) => {
    if (atS < 12) return from;
    if (atS < 14) return from + ((to - from) * (atS - 12)) / 2;
    if (atS < 26) return to;
    if (atS < 28) return to + ((further - to) * (atS - 26)) / 2;
    return further;
  };
}

function run(noise: () => number) {
  const pressure = stepped(1.01325e5 + 1e5, 1.01325e5 + 2e5, 1.01325e5 + 3e5);
  return sampledReadings(40, 50, {
    speed: (atS) => 15 + 0.005 * noise() + 0 * atS,
    suctionPressure: () => 0.97e5 + 50 * noise(),
    deliveryPressure: (atS) => pressure(atS) + 200 * noise(),
    flow: (atS) => stepped(2.0e-4, 1.95e-4, 1.9e-4)(atS) + 4e-7 * noise(),
    oilTemperature: () => 318 + 0.02 * noise(),
  });
}

describe('findHolds', () => {
  it('finds three set points as three holds, ramps and lead left out (seed 5)', () => {
    const readings = run(normal(5));
    const holds = findHolds(readings, SEARCH);
    expect(holds).toHaveLength(3);
    const timesS = holds.map(({ first, end }) => [readings.elapsedS[first] ?? 0, readings.elapsedS[end - 1] ?? 0]);
    // By construction: still from 0 to 12 s, 14 to 26 s, 28 to 40 s; a second of lead is dropped, half a second of
    // block either side may be lost or blurred.
    for (const [index, [startS = 0, endS = 0]] of timesS.entries()) {
      expect(startS).toBeGreaterThanOrEqual(14 * index + 0.4);
      expect(startS).toBeLessThanOrEqual(14 * index + 1.6);
      expect(endS).toBeLessThanOrEqual(14 * index + 12.6);
      expect(endS).toBeGreaterThanOrEqual(14 * index + 11);
    }
  });

  it('finds no hold while the pressure keeps climbing', () => {
    const readings = sampledReadings(40, 50, {
      speed: () => 15,
      suctionPressure: () => 0.97e5,
      deliveryPressure: (atS) => 2e5 + 5e3 * atS,
      flow: () => 2e-4,
      oilTemperature: () => 318,
    });
    expect(findHolds(readings, SEARCH)).toEqual([]);
  });

  it('finds no hold with the shaft at rest, and none without a flow channel', () => {
    const still = {
      suctionPressure: () => 1e5,
      deliveryPressure: () => 1e5,
      oilTemperature: () => 300,
    };
    expect(findHolds(sampledReadings(20, 50, { ...still, speed: () => 0, flow: () => 0 }), SEARCH)).toEqual([]);
    expect(findHolds(sampledReadings(20, 50, { ...still, speed: () => 15 }), SEARCH)).toEqual([]);
  });

  it('ends a hold where a channel goes missing for a second', () => {
    const readings = sampledReadings(20, 50, {
      speed: () => 15,
      suctionPressure: () => 0.97e5,
      deliveryPressure: () => 4e5,
      flow: () => 2e-4,
      oilTemperature: () => 318,
    });
    readings.channels.flow?.quality.fill(QUALITY.missing, 500, 550);
    const holds = findHolds(readings, SEARCH);
    expect(holds).toHaveLength(2);
    expect(holds[0]?.end).toBeLessThanOrEqual(525);
    expect(holds[1]?.first).toBeGreaterThanOrEqual(550);
  });

  it('breaks a hold when the oil warms by more than half a kelvin either way', () => {
    const readings = sampledReadings(60, 20, {
      speed: () => 15,
      suctionPressure: () => 0.97e5,
      deliveryPressure: () => 4e5,
      flow: () => 2e-4,
      oilTemperature: (atS) => 318 + 0.05 * atS,
    });
    // 3 K in 60 s: a kelvin, the full span of ± 0.5 K, passes in 20 s, so no hold is longer.
    for (const { first, end } of findHolds(readings, SEARCH)) {
      expect((readings.elapsedS[end - 1] ?? 0) - (readings.elapsedS[first] ?? 0)).toBeLessThanOrEqual(20);
    }
    expect(findHolds(readings, SEARCH).length).toBeGreaterThanOrEqual(3);
  });
});
