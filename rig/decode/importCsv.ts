import type { Readings } from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { CsvDecoder } from './csvDecoder.ts';

/**
 * Reads a CSV file as the readings of a run. Headings are a channel's name and a unit of it in brackets, `elapsed [s],flow [l/min]`, in any
 * order; an empty cell is a missing value.
 *
 * @param bytes - the file, UTF-8, RFC 4180 [-]
 * @param bench - values outside its channels' ranges are marked; null: none are [-]
 * @param barometerPa - added to gauge pressures [Pa]
 * @param zeroCheck - of the run: what it says to apply is taken off; null: nothing is [-]
 * @returns the readings, time from the first row on [s]
 * @throws CsvError naming line and column, and what was expected there
 */
export function importCsv(
  bytes: Uint8Array,
  bench: BenchRecord | null,
  barometerPa: number,
  zeroCheck: ZeroCheck | null = null,
): Readings {
  const decoder = new CsvDecoder(bytes.length, { bench, barometerPa, zeroCheck });
  decoder.push(bytes);
  return decoder.finish();
}
