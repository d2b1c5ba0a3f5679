import { channelValue } from '../calibration/channelSources.ts';
import { type Column, QUALITY, type Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { Uncertain } from '../uncertainty/source.ts';

/** A pressure counts as reached when it was held this long: one wild reading is not a vacuum [s]. */
const HELD_S = 0.5;

/** Means of the good readings over half a second, one a reading that ends such a time [Pa]. */
function slidingMeans(readings: Readings, column: Column, fromS: number, untilS: number): readonly number[] {
  const means: number[] = [];
  let sumPa = 0;
  let count = 0;
  let first = 0;
  const take = (index: number, sign: 1 | -1): void => {
    if (column.quality[index] !== QUALITY.good) return;
    sumPa += sign * (column.values[index] ?? 0);
    count += sign;
  };
  for (const [index, timeS] of readings.elapsedS.entries()) {
    if (timeS > untilS) break;
    take(index, 1);
    while ((readings.elapsedS[first] ?? timeS) < timeS - HELD_S) {
      take(first, -1);
      first += 1;
    }
    if (first === 0 || count === 0 || (readings.elapsedS[first] ?? timeS) < fromS) continue;
    means.push(sumPa / count);
  }
  return means;
}

/**
 * How far the suction fell in a dry start: its lowest half-second mean.
 *
 * @param run - bench, barometer, zero check [-]
 * @param readings - of the run [n readings, oldest first]
 * @param fromS - motor start [s]
 * @param untilS - end of the part that is looked at: sustained delivery, or the end of the run [s]
 * @returns that pressure, absolute; null where the bench has no suction channel or too few readings [Pa]
 */
export function lowestSuctionPa(
  run: Pick<RunRecord, 'bench' | 'setUp' | 'zeroCheck'>,
  readings: Readings,
  fromS: number,
  untilS: number,
): Uncertain | null {
  const { bench, setUp, zeroCheck } = run;
  const column = readings.channels.suctionPressure;
  const channel = bench.channels.find((entry) => entry.channel === 'suctionPressure');
  if (column === undefined || channel === undefined) return null;
  const means = slidingMeans(readings, column, fromS, untilS);
  if (means.length === 0) return null;
  return channelValue(channel, Math.min(...means), setUp.barometerPa.value, zeroCheck);
}
