import { parentPort } from 'node:worker_threads';
import { CertificateFileError } from './certificateErrors.ts';
import { readCertificateFile } from './readCertificateFile.ts';
import type { BatchAnswer } from './readCertificateFiles.ts';

/** A thread that reads the certificates it is told of, batch by batch. */

function answerTo(paths: readonly string[]): BatchAnswer {
  try {
    return { reads: paths.map(readCertificateFile) };
  } catch (error) {
    if (!(error instanceof CertificateFileError)) throw error;
    return { unreadable: error.path, why: error.why };
  }
}

parentPort?.on('message', (paths: readonly string[]) => parentPort?.postMessage(answerTo(paths)));
