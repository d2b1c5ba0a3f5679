import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { startThread } from '../startThread.ts';
import type { ReadCertificate } from './certificateCheck.ts';
import { CertificateFileError } from './certificateErrors.ts';
import { readCertificateFile } from './readCertificateFile.ts';

/** Fewer files than these are read before a thread has started [-]. */
const FEWEST_FOR_THREADS = 200;

/** Files that a thread is given at a time [-]. */
const BATCH = 50;

/** What a thread answers to a batch. */
export type BatchAnswer =
  | { readonly reads: readonly ReadCertificate[] }
  | { readonly unreadable: string; readonly why: string };

type Batch = { readonly from: number; readonly paths: readonly string[] };

/** Lets a thread read one batch after the other until none is left. */
async function readByThread(
  next: () => Batch | undefined,
  keep: (from: number, reads: readonly ReadCertificate[]) => void,
) {
  const thread = startThread(import.meta, 'readCertificateThread');
  try {
    for (let batch = next(); batch !== undefined; batch = next()) {
      const answered = once(thread, 'message');
      thread.postMessage(batch.paths);
      // Our own thread, built from the same tree: the shape of its answers is agreed.
      const [answer]: BatchAnswer[] = await answered;
      if (answer === undefined) throw new Error('a thread gave no answer');
      if ('unreadable' in answer) throw new CertificateFileError(answer.unreadable, answer.why);
      keep(batch.from, answer.reads);
    }
  } finally {
    await thread.terminate();
  }
}

/**
 * Reads certificates from their files; many of them by as many threads as the machine has processors.
 *
 * @param paths - of .pdf and .json files [-]
 * @param progress - told now and then how many were read [-]
 * @returns what each says of itself, in their order [-]
 * @throws CertificateFileError if a file cannot be read
 */
export async function readCertificateFiles(
  paths: readonly string[],
  progress: (count: number) => void,
): Promise<readonly ReadCertificate[]> {
  if (paths.length < FEWEST_FOR_THREADS) {
    return paths.map((path, index) => {
      progress(index + 1);
      return readCertificateFile(path);
    });
  }
  const reads: ReadCertificate[] = [];
  let begun = 0;
  let done = 0;
  const next = (): Batch | undefined => {
    if (begun >= paths.length) return undefined;
    const from = begun;
    begun += BATCH;
    return { from, paths: paths.slice(from, begun) };
  };
  const keep = (from: number, batch: readonly ReadCertificate[]): void => {
    for (const [index, read] of batch.entries()) reads[from + index] = read;
    done += batch.length;
    progress(done);
  };
  await Promise.all(Array.from({ length: availableParallelism() }, () => readByThread(next, keep)));
  return reads;
}
