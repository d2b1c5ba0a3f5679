import { describe, expect, it } from 'vitest';
import { lowestSuctionPa } from '../../../analysis/dryLift/lowestSuction.ts';
import { PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const ATMOSPHERE_PA = 101325;
const RUN = { bench: inventedBench(), setUp: PRACTICE_RUN_SET_UP, zeroCheck: null };
const noise = normal(8);

/** Suction falls by 4 kPa over two seconds from 1 s on, then stands; as the rising of a column that arrives at 3 s. */
function rising(atS: number): number {
  return ATMOSPHERE_PA - 2000 * Math.min(2, Math.max(0, atS - 1)) + 30 * noise();
}

const lowestOf = (suctionPressure: (atS: number) => number): number | undefined =>
  lowestSuctionPa(RUN, sampledReadings(8, 50, { suctionPressure }), 1, 5)?.value;

describe('the lowest suction of a start', () => {
  it('is what it fell to and held (seed 8)', () => {
    // By construction: 4000 Pa below the atmosphere.
    expect(Math.abs((lowestOf(rising) ?? Number.NaN) - (ATMOSPHERE_PA - 4000))).toBeLessThan(30);
  });

  it('is not fooled by one wild reading, and says nothing without a suction channel', () => {
    // One reading of 20 kPa in 26 moves a half-second mean by 3 kPa at the most.
    const wild = lowestOf((atS) => (Math.abs(atS - 4) < 0.005 ? 20000 : rising(atS)));
    expect(wild).toBeGreaterThan(ATMOSPHERE_PA - 4000 - 3200);
    expect(lowestSuctionPa(RUN, sampledReadings(8, 50, {}), 1, 5)).toBeNull();
  });
});
