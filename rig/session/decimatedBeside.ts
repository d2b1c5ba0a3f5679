import { once } from 'node:events';
import type { DecimatedReadings } from '../../analysis/decimate.ts';
import type { Readings } from '../../analysis/readings.ts';
import { startThread } from '../startThread.ts';

/** What the thread is handed over. */
export type DrawingJob = { readonly readings: Readings; readonly maxRows: number };

/**
 * Thins readings to be drawn in a thread of its own: an hour's record takes a quarter of the time that its analysis takes.
 *
 * @param readings - in memory that threads share, as decoded [SI, oldest first]
 * @param maxRows - most rows to keep [-]
 */
export async function decimatedBeside(readings: Readings, maxRows: number): Promise<DecimatedReadings> {
  const job: DrawingJob = { readings, maxRows };
  // Our own thread, built from the same tree: the shape of its one message is agreed.
  const [decimated]: DecimatedReadings[] = await once(startThread(import.meta, 'drawingThread', job), 'message');
  if (decimated === undefined) throw new Error('a thread gave no drawing');
  return decimated;
}
