import { parentPort, workerData } from 'node:worker_threads';
import { decimate } from '../../analysis/decimate.ts';
import type { DrawingJob } from './decimatedBeside.ts';

/** A thread that thins a run's readings to be drawn. */

const { readings, maxRows }: DrawingJob = workerData;
parentPort?.postMessage(decimate(readings, maxRows));
