import { writeSync } from 'node:fs';
import { openArchive } from '../../rig/archive/openArchive.ts';
import { fileCertificate } from '../../rig/certificate/fileCertificate.ts';
import { readStoredResult } from '../../rig/session/analyseStoredRun.ts';
import { keysFor } from '../../rig/session/signingKeys.ts';
import { samplePump } from '../support/samples.ts';

/**
 * A process that files and files, to be killed: a new version of a pump, then a certificate, and says each when it is filed.
 * Run by the tests: node --import tsx tests/kills/filer.ts ARCHIVE RUN COUNT
 */

const [directory = '', runId = '', count = '0'] = process.argv.slice(2);

/** At once and unbuffered: what was said was said before the kill. */
function acknowledge(what: string): void {
  writeSync(1, `${what}\n`);
}

const archive = openArchive(directory);
const { sealed, result } = readStoredResult(archive, runId);
const { run, closing } = sealed;
const keys = await keysFor(run.bench.workshop, new Date(), true);
acknowledge('ready');
for (let filed = 0; filed < Number(count); filed += 1) {
  const pump = archive.savePump({ ...samplePump('dredger-return-pump'), remarks: `${process.pid} ${filed}` });
  acknowledge(`pump ${pump.version}`);
  const certificate = await fileCertificate({
    archive,
    keys,
    signatory: 'H. Wiese (invented)',
    programVersion: '0.1.0',
    issuedAt: new Date(),
    runs: [{ run, closing, result }],
    readings: {},
  });
  if (!certificate.ok) throw new Error(certificate.reason.text);
  acknowledge(`certificate ${certificate.value.number}`);
}
archive.close();
