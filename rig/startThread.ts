import { extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { PROJECT_FOLDER } from './projectFolder.ts';

/**
 * Starts a thread with a program of this tree, be it built or TypeScript as it stands.
 *
 * @param beside - import.meta of a module that lies beside the program [-]
 * @param name - of the program's file, without its ending [-]
 * @param workerData - handed over to it; arrays over shared memory stay where they are [-]
 */
export function startThread(beside: ImportMeta, name: string, workerData?: unknown): Worker {
  if (extname(beside.filename) !== '.ts') {
    return new Worker(join(beside.dirname, `${name}.js`), { workerData, execArgv: [] });
  }
  return new Worker(join(PROJECT_FOLDER, 'rig/typescriptThread.mjs'), {
    workerData,
    argv: [join(beside.dirname, `${name}.ts`)],
    execArgv: [],
  });
}
