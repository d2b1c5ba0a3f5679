import { channelValue } from '../calibration/channelSources.ts';
import { QUALITY, type Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Uncertain } from '../uncertainty/source.ts';

/** A pressure counts as reached when it was held this long: one wild reading is not a vacuum [s]. */
const HELD_S = 0.5;

/** The suction must have risen by this much above its lowest for the turn to count as oil at the inlet [Pa]. */
const CLEAR_TURN_PA = 300;

export type SuctionHistory = {
  /** Lowest half-second mean after motor start, absolute [Pa]. */
  readonly lowestPa: Uncertain;
  /** When the suction stopped falling for good: the column stood at the inlet; null where that does not show [s]. */
  readonly oilAtInletS: number | null;
};

/**
 * Reads the suction channel of a dry start: how far it fell, and when it turned because oil stood at the inlet.
 *
 * @param readings - the run [n readings, oldest first]
 * @param bench - bench record in force [-]
 * @param motorStartS - from findPriming [s]
 * @param untilS - end of the part that is looked at: sustained delivery, or the end of the run [s]
 * @param barometerPa - barometer of the run [Pa]
 * @returns lowest pressure and turn; null where the bench has no suction channel or too few readings [-]
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

  let lowest: { readonly pressurePa: number; readonly atS: number } | null = null;
  let lastMeanPa = Number.NaN;
  let sumPa = 0;
  let from = 0;
  let count = 0;
  for (const [index, atS] of readings.elapsedS.entries()) {
    if (column.quality[index] === QUALITY.good) {
      sumPa += column.values[index] ?? 0;
      count += 1;
    }
    while ((readings.elapsedS[from] ?? atS) < atS - HELD_S) {
      if (column.quality[from] === QUALITY.good) {
        sumPa -= column.values[from] ?? 0;
        count -= 1;
      }
      from += 1;
    }
    const isWatched = (readings.elapsedS[from] ?? atS) >= motorStartS && atS <= untilS && from > 0;
    if (!isWatched || count === 0) continue;
    lastMeanPa = sumPa / count;
    if (lowest === null || lastMeanPa < lowest.pressurePa) lowest = { pressurePa: lastMeanPa, atS: atS - HELD_S / 2 };
  }
  if (lowest === null) return null;
  return {
    lowestPa: channelValue(channel, lowest.pressurePa, barometerPa),
    oilAtInletS: lastMeanPa - lowest.pressurePa > CLEAR_TURN_PA ? lowest.atS : null,
  };
}
