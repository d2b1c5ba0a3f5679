import { channelValue } from '../calibration/channelSources.ts';
import { type Column, QUALITY, type Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Uncertain } from '../uncertainty/source.ts';

/** A pressure counts as reached when it was held this long: one wild reading is not a vacuum [s]. */
const HELD_S = 0.5;

/** The fall counts as over when it is slower than this share of the steepest, and stays so until oil is delivered [1]. */
const FALL_OVER_SHARE = 0.2;

/** A fall of less than this is noise and weather, not a rising column [Pa]. */
const LEAST_FALL_PA = 500;

export type SuctionHistory = {
  /** Lowest half-second mean after motor start, absolute [Pa]. */
  readonly lowestPa: Uncertain;
  /** When the suction stopped falling for good: the column had reached the inlet; null where that does not show [s]. */
  readonly oilAtInletS: number | null;
};

type Means = { readonly atS: readonly number[]; readonly pressurePa: readonly number[] };

/** Means of the good readings over half a second, one a reading, at the middle of their time. */
function slidingMeans(readings: Readings, column: Column, fromS: number, untilS: number): Means {
  const atS: number[] = [];
  const pressurePa: number[] = [];
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
    atS.push(timeS - HELD_S / 2);
    pressurePa.push(sumPa / count);
  }
  return { atS, pressurePa };
}

/** Fall of the means over half a second ending at each of them, per second [Pa/s]. */
function fallRates({ atS, pressurePa }: Means): readonly number[] {
  let back = 0;
  return pressurePa.map((pa, index) => {
    while ((atS[index] ?? 0) - (atS[back] ?? 0) > HELD_S) back += 1;
    const spanS = (atS[index] ?? 0) - (atS[back] ?? 0);
    return spanS > HELD_S / 2 ? ((pressurePa[back] ?? pa) - pa) / spanS : 0;
  });
}

/** The last instant at which the suction still fell fast; the column arrived within the means' own half second before it. */
function endOfFallS(means: Means): number | null {
  const { pressurePa, atS } = means;
  if ((pressurePa[0] ?? 0) - Math.min(...pressurePa) < LEAST_FALL_PA) return null;
  const rates = fallRates(means);
  const steepest = Math.max(...rates);
  const last = rates.findLastIndex((rate) => rate > FALL_OVER_SHARE * steepest);
  // Still falling when the record ends: nothing arrived.
  if (last < 0 || last >= rates.length - 1) return null;
  return (atS[last] ?? 0) - HELD_S / 2;
}

/**
 * Reads the suction channel of a dry start: how far it fell, and when the fall ended because the column had reached the
 * inlet.
 *
 * @param readings - the run [n readings, oldest first]
 * @param bench - bench record in force [-]
 * @param motorStartS - from findPriming [s]
 * @param untilS - end of the part that is looked at: sustained delivery, or the end of the run [s]
 * @param barometerPa - barometer of the run [Pa]
 * @returns lowest pressure and end of the fall; null where the bench has no suction channel or too few readings [-]
 */
export function suctionHistory(
  readings: Readings,
  bench: BenchRecord,
  motorStartS: number,
  untilS: number,
  barometerPa: number,
): SuctionHistory | null {
  const column = readings.channels.suctionPressure;
  const channel = bench.channels.find((entry) => entry.channel === 'suctionPressure');
  if (column === undefined || channel === undefined) return null;
  const means = slidingMeans(readings, column, motorStartS, untilS);
  if (means.pressurePa.length === 0) return null;
  return {
    lowestPa: channelValue(channel, Math.min(...means.pressurePa), barometerPa),
    oilAtInletS: endOfFallS(means),
  };
}
