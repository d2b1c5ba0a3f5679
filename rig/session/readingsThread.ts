import { parentPort, workerData } from 'node:worker_threads';
import { type SearchedReadings, searchedReadings } from '../../analysis/readingsWindow.ts';
import { runRecord } from '../../analysis/records/runRecord.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';

/** Decodes the run in the folder that it was started with, beside the thread that answers, and hands it over. */

/** What is handed over and not copied. */
function buffersOf({ readings, blocks, badLines }: SearchedReadings): readonly ArrayBuffer[] {
  const columns = Object.values(readings.channels).flatMap(({ values, quality }) => [values, quality]);
  const extremes = Object.values(blocks).flatMap(({ lowest, highest, missing }) => [lowest, highest, missing]);
  const views = [readings.elapsedS, ...columns, ...extremes, badLines.elapsedS, badLines.kinds];
  return [...new Set(views.map(({ buffer }) => buffer).filter((buffer) => buffer instanceof ArrayBuffer))];
}

const { folder, run } = workerData;
const { readings, badLines } = readRunReadings(folder, runRecord.parse(run));
const searched = searchedReadings(readings, badLines);
parentPort?.postMessage(searched, buffersOf(searched));
