import { describe, expect, it } from 'vitest';
import { QUALITY, type Readings } from '../../../analysis/readings.ts';
import { holdLimits } from '../../../analysis/records/benchRecord.ts';
import { findHolds } from '../../../analysis/steady/findHolds.ts';
import { createHoldFinder } from '../../../analysis/steady/holdFinder.ts';
import type { HoldSearch } from '../../../analysis/steady/holdSearch.ts';
import { cutReadings } from '../../support/cutReadings.ts';
import { normal, uniform } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const SEARCH: HoldSearch = { limits: holdLimits.parse({}), barometerPa: 101_325, leadS: 1 };

/** Levels of random length with ramps between them, noise, wild readings and dropouts: what a bench may send. */
function restlessRun(seed: number): Readings {
  const next = uniform(seed);
  const noise = normal(seed + 1000);
  const levels = Array.from({ length: 8 }, () => ({ lastsS: 2 + 12 * next(), rampS: 2 * next(), share: 0.2 + next() }));
  const shareAt = (atS: number): number => {
    let startS = 0;
    let before = levels[0]?.share ?? 1;
    for (const { lastsS, rampS, share } of levels) {
      if (atS < startS + rampS) return before + ((share - before) * (atS - startS)) / rampS;
      if (atS < startS + rampS + lastsS) return share;
      startS += rampS + lastsS;
      before = share;
    }
    return before;
  };
  const readings = sampledReadings(70, 20 + Math.floor(60 * next()), {
    speed: (atS) => 15 * shareAt(atS) + 0.005 * noise(),
    suctionPressure: () => 0.97e5 + 50 * noise(),
    deliveryPressure: (atS) => 1.01325e5 + 4e5 * shareAt(atS) + 300 * noise(),
    flow: (atS) => 2e-4 * shareAt(atS) + 3e-7 * noise(),
    oilTemperature: () => 318 + 0.02 * noise(),
  });
  for (const column of Object.values(readings.channels)) {
    for (let count = 0; count < 5; count += 1) {
      const at = Math.floor(next() * column.values.length);
      column.values[at] = (column.values[at] ?? 0) * (next() < 0.5 ? 0 : 3);
    }
    const gap = Math.floor(next() * column.values.length);
    column.quality.fill(QUALITY.missing, gap, gap + Math.floor(40 * next()));
  }
  return readings;
}

describe('createHoldFinder', () => {
  it('finds the same holds however the readings are cut into pieces (seeds 1 to 32)', () => {
    let holdCount = 0;
    for (let seed = 1; seed <= 32; seed += 1) {
      const readings = restlessRun(seed);
      const next = uniform(seed + 5000);
      const whole = findHolds(readings, SEARCH);
      const finder = createHoldFinder(SEARCH);
      const longest = [1, 3, 40, 1500][seed % 4] ?? 1;
      for (let from = 0; from < readings.elapsedS.length; ) {
        const to = Math.min(readings.elapsedS.length, from + Math.floor(next() * (longest + 1)));
        finder.push(cutReadings(readings, from, to));
        from = to;
      }
      expect(finder.finish()).toEqual(whole);
      holdCount += whole.length;
    }
    // 256 levels of 2 to 14 s, of which those from some 6 s up are long enough: the test is about something.
    expect(holdCount).toBeGreaterThan(60);
  });

  it('never takes back or changes a hold for what comes later (seeds 1 to 20)', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const readings = restlessRun(seed);
      const whole = findHolds(readings, SEARCH);
      const finder = createHoldFinder(SEARCH);
      for (let from = 0; from < readings.elapsedS.length; from += 25) {
        finder.push(cutReadings(readings, from, Math.min(readings.elapsedS.length, from + 25)));
        const ended = finder.ended();
        expect(ended).toEqual(whole.slice(0, ended.length));
        const present = finder.present();
        if (present === null) continue;
        const becomes = whole[ended.length];
        expect(becomes?.first).toBe(present.first);
        expect(becomes?.end).toBeGreaterThanOrEqual(present.end);
      }
    }
  });

  it('is not moved by a flow that comes later and is ten times as large', () => {
    // A flow near nothing is judged by a share of the largest so far: 1 % of noise on a tenth of what comes later must not
    // become still in hindsight.
    const noise = normal(3);
    const small = (atS: number): number => 2e-5 * (1 + 0.03 * Math.sin(atS)) + 1e-9 * noise();
    const channels = {
      speed: () => 15,
      suctionPressure: () => 0.97e5,
      deliveryPressure: () => 4e5,
      oilTemperature: () => 318,
    };
    const alone = findHolds(sampledReadings(30, 50, { ...channels, flow: small }), SEARCH);
    const before = sampledReadings(60, 50, { ...channels, flow: (atS) => (atS < 30 ? small(atS) : 4e-4) });
    const inLongRun = findHolds(before, SEARCH).filter(({ end }) => end <= 1500);
    expect(inLongRun).toEqual(alone);
  });

  it('keeps a hold through single wild readings, and ends it at a gap of half its least duration', () => {
    const still = {
      speed: () => 15,
      suctionPressure: () => 0.97e5,
      deliveryPressure: () => 4e5,
      flow: () => 2e-4,
      oilTemperature: () => 318,
    };
    const readings = sampledReadings(20, 50, still);
    for (const at of [200, 333, 700]) {
      readings.channels.flow?.values.fill(9e-3, at, at + 1);
      readings.channels.speed?.values.fill(0, at + 5, at + 6);
    }
    // By construction: still from 0 to 20 s, a second of lead.
    expect(findHolds(readings, SEARCH)).toEqual([{ first: 50, end: 1000 }]);
    const torn = sampledReadings(20, 50, still);
    for (let index = 500; index < 1000; index += 1) torn.elapsedS[index] = (torn.elapsedS[index] ?? 0) + 2.5;
    const [before, after] = findHolds(torn, SEARCH);
    expect(before).toEqual({ first: 50, end: 500 });
    expect(after).toEqual({ first: 550, end: 1000 });
  });

  it('refuses readings without a hold channel', () => {
    const readings = sampledReadings(5, 50, { speed: () => 15 });
    expect(() => createHoldFinder(SEARCH).push(readings)).toThrow(RangeError);
  });
});
