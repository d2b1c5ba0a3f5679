import { once } from 'node:events';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { z } from 'zod';
import { messageOf } from '../errors.ts';
import { PROJECT_FOLDER } from '../projectFolder.ts';
import { ArchiveError } from './archiveErrors.ts';
import type { FileMeasure } from './measureFile.ts';

const measured = z.object({
  measure: z.object({ byteLength: z.number(), lineCount: z.number(), sha256: z.string() }),
});

/**
 * Writes evidence to a new file and measures it, in a thread of its own: the caller may decode the same bytes meanwhile.
 *
 * @param bytes - the evidence, in memory that threads share; not to be changed any more [-]
 * @param path - a name that is not taken; not the file's last name, since it grows there [-]
 * @param touched - memory that the caller is about to fill: had from the system here, ahead of it [-]
 * @returns its measure, once every byte is on the disk [-]
 * @throws ArchiveError if it cannot be written
 */
export async function fileEvidence(
  bytes: Buffer<SharedArrayBuffer>,
  path: string,
  touched: SharedArrayBuffer = new SharedArrayBuffer(0),
): Promise<FileMeasure> {
  const worker = new Worker(join(PROJECT_FOLDER, 'rig/archive/evidenceWorker.mjs'), {
    workerData: { shared: bytes.buffer, path, touched },
    execArgv: [], // no loader of TypeScript: it has none to load
  });
  let measure: FileMeasure | null = null;
  worker.once('message', (message: unknown) => {
    measure = measured.parse(message).measure;
  });
  try {
    await once(worker, 'exit'); // an 'error' rejects
  } catch (cause) {
    throw new ArchiveError(path, `cannot be written (${messageOf(cause)})`, { cause });
  }
  if (measure === null) throw new ArchiveError(path, 'cannot be written (its thread ended early)');
  return measure;
}

/** The same bytes in memory that threads share: themselves, where they are there already. */
export function sharedBytes(bytes: Uint8Array): Buffer<SharedArrayBuffer> {
  const { buffer, byteLength } = bytes;
  if (buffer instanceof SharedArrayBuffer && byteLength === buffer.byteLength) return Buffer.from(buffer);
  const shared = Buffer.from(new SharedArrayBuffer(byteLength));
  shared.set(bytes);
  return shared;
}
