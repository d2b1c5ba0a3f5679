import { describe, expect, it } from 'vitest';
import { suctionHistory } from '../../../analysis/dryLift/suctionHistory.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const ATMOSPHERE_PA = 101325;
const noise = normal(8);

/** Suction falls by 4 kPa over two seconds from 1 s on, then stands; as the rising of a column that arrives at 3 s. */
function rising(atS: number): number {
  return ATMOSPHERE_PA - 2000 * Math.min(2, Math.max(0, atS - 1)) + 30 * noise();
}

function historyOf(suctionPressure: (atS: number) => number, untilS: number) {
  const readings = sampledReadings(8, 50, { suctionPressure });
  return suctionHistory(readings, inventedBench(), 1, untilS, ATMOSPHERE_PA);
}

describe('suctionHistory', () => {
  it('sees the column arrive where the fall ends (seed 8)', () => {
    const history = historyOf(rising, 5);
    // By construction: arrival at 3 s, 4000 Pa below the atmosphere.
    expect(Math.abs((history?.oilAtInletS ?? Number.NaN) - 3)).toBeLessThan(0.3);
    expect(Math.abs((history?.lowestPa.value ?? Number.NaN) - (ATMOSPHERE_PA - 4000))).toBeLessThan(30);
  });

  it('sees no arrival while the suction still falls, nor in a pressure that only trembles', () => {
    expect(historyOf(rising, 2.5)?.oilAtInletS).toBeNull();
    expect(historyOf(() => ATMOSPHERE_PA + 30 * noise(), 5)?.oilAtInletS).toBeNull();
  });

  it('is not fooled by one wild reading, and says nothing without a suction channel', () => {
    const history = historyOf((atS) => (Math.abs(atS - 4) < 0.005 ? 20000 : rising(atS)), 5);
    // One reading of 20 kPa in 26 moves a half-second mean by 3 kPa at the most.
    expect(history?.lowestPa.value).toBeGreaterThan(ATMOSPHERE_PA - 4000 - 3200);
    expect(suctionHistory(sampledReadings(8, 50, {}), inventedBench(), 1, 5, ATMOSPHERE_PA)).toBeNull();
  });
});
