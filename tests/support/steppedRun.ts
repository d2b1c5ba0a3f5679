import type { LineCensus, Readings } from '../../analysis/readings.ts';
import { normal } from './random.ts';
import { sampledReadings } from './readings.ts';

const BAROMETER_PA = 101325;

/** Standard deviations of the readings, as of instruments that are alive [SI]. */
const NOISE = { speedRevPerS: 0.003, pressurePa: 150, flowM3PerS: 2e-7, temperatureK: 0.01 } as const;

/**
 * Fifteen set points of 8 s: three speeds by four pressures, and the first speed's first three once more at the end. Laminar
 * slip alone, written out here anew: q = V n − k Δp with V = 13.9 cm³/rev and k = 5e-11 m³/(s Pa), seeded noise on all.
 */
export function steppedReadings(seed = 5): Readings {
  const noise = normal(seed);
  const at = (timeS: number) => {
    const step = Math.min(14, Math.floor(timeS / 8));
    return {
      speedRevPerS: [15, 9, 18.75, 15][Math.floor(step / 4)] ?? 15,
      // The last three are taken downwards, the very first set point last.
      gaugePa: (step < 12 ? [0.6e5, 1.8e5, 3e5, 3.9e5][step % 4] : [3e5, 1.8e5, 0.6e5][step - 12]) ?? 0,
    };
  };
  return sampledReadings(120, 20, {
    speed: (timeS) => at(timeS).speedRevPerS + NOISE.speedRevPerS * noise(),
    deliveryPressure: (timeS) => BAROMETER_PA + at(timeS).gaugePa + NOISE.pressurePa * noise(),
    suctionPressure: () => 96000 + NOISE.pressurePa * noise(),
    flow: (timeS) =>
      13.9e-6 * at(timeS).speedRevPerS -
      5e-11 * (BAROMETER_PA + at(timeS).gaugePa - 96000) +
      NOISE.flowM3PerS * noise(),
    oilTemperature: () => 318.15 + NOISE.temperatureK * noise(),
  });
}

/** What the decoder would have counted. */
export function censusOf(readings: Readings, badLineCounts: LineCensus['badLineCounts'] = {}): LineCensus {
  const readingCount = readings.elapsedS.length;
  const badCount = Object.values(badLineCounts).reduce((sum, count) => sum + count, 0);
  return {
    lineCount: readingCount + badCount,
    readingCount,
    noteCount: 0,
    badLineCounts,
    lostReadingCount: 0,
    reconnectCount: 0,
  };
}
