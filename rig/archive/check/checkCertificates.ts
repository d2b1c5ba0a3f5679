import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import {
  type CertificateData,
  type ChainPlace,
  certificateData,
} from '../../../analysis/certificate/certificateData.ts';
import type { DatedCertificate } from '../../../analysis/certificate/dateDoubts.ts';
import { runClosing } from '../../../analysis/records/runRecord.ts';
import type { CertificateCheck } from '../../certificate/certificateCheck.ts';
import {
  CERTIFICATE_ENDINGS,
  certificateFolder,
  certificatePath,
  isNotice,
  numberOfFile,
} from '../../certificate/certificateFolder.ts';
import { readSignedWithdrawal } from '../../certificate/certificateLedger.ts';
import { withdrawalPath, withdrawnNumbers } from '../../certificate/standing.ts';
import { FileVerifier } from '../../certificate/verifyCertificate.ts';
import { messageOf } from '../../errors.ts';
import { readRecordFile } from '../recordFile.ts';
import { RUN_FILES } from '../runFiles.ts';
import { noteStray } from './checkStrays.ts';
import type { Findings } from './flaw.ts';

/** Checks every certificate: its files and signatures, the chain through all of them, and the runs that they rest on. */
export async function checkCertificates(
  directory: string,
  findings: Findings,
  progress: (text: string) => void,
): Promise<void> {
  const folder = certificateFolder(directory);
  if (!existsSync(folder)) return;
  const numbers = new Set<string>();
  for (const name of readdirSync(folder)) {
    const number = numberOfFile(name);
    if (number !== null) numbers.add(number);
    else if (!isNotice(name) && !name.startsWith('filing.lock')) noteStray(join(folder, name), findings);
  }
  const inOrder = [...numbers].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const complete = inOrder.filter((number) => isComplete(directory, number, findings));
  const verifier = new FileVerifier();
  const paths = complete.flatMap((number) => [
    certificatePath(directory, number, 'pdf'),
    certificatePath(directory, number, 'json'),
  ]);
  const checks = await verifier.verifyAll(paths, (count) => progress(`file ${count} of ${paths.length} verified`));
  const checkOf = new Map(checks.map((check) => [check.path, check]));
  for (const number of withdrawnNumbers(folder)) checkWithdrawal(directory, number, verifier, findings);
  const strangers = new Map<string, string>();
  const chain: CertificateData[] = [];
  for (const number of complete) {
    const data = dataOfWhole(directory, number, checkOf, strangers, findings);
    if (data === null) continue;
    checkRuns(directory, data, findings);
    chain.push(data);
  }
  checkChain(directory, chain, verifier, findings);
  for (const [fingerprint, number] of strangers) {
    const path = certificatePath(directory, number, 'pdf');
    findings.note(
      path,
      `is signed by a key that this machine does not know: certificate of that key, SHA-256 ${fingerprint}`,
    );
  }
}

/** Whether a certificate is here with all its files. */
function isComplete(directory: string, number: string, findings: Findings): boolean {
  const missing = CERTIFICATE_ENDINGS.map((ending) => certificatePath(directory, number, ending)).filter(
    (path) => !existsSync(path),
  );
  for (const path of missing) findings.wrong(path, 'it is missing');
  return missing.length === 0;
}

/** @returns its data, or null where nothing of it can be believed [-] */
function dataOfWhole(
  directory: string,
  number: string,
  checkOf: ReadonlyMap<string, CertificateCheck>,
  strangers: Map<string, string>,
  findings: Findings,
): CertificateData | null {
  findings.filesRead += CERTIFICATE_ENDINGS.length;
  let isWhole = true;
  for (const ending of ['pdf', 'json'] as const) {
    const path = certificatePath(directory, number, ending);
    const check = checkOf.get(path);
    if (check?.state !== 'whole') {
      findings.wrong(path, check === undefined ? 'was not verified' : `${check.state}. ${check.why}`);
      isWhole = false;
      continue;
    }
    if (check.number !== number) findings.wrong(path, `is certificate ${check.number} under the number of another`);
    if (!check.isKeyKnown && !strangers.has(check.signedBy.certificateSha256)) {
      strangers.set(check.signedBy.certificateSha256, number);
    }
  }
  return isWhole ? readRecordFile(certificateData, certificatePath(directory, number, 'json')) : null;
}

/** Each certificate names the one before it and the notices since, by their hashes; two that name the same one divide the chain. */
function checkChain(
  directory: string,
  chain: readonly CertificateData[],
  verifier: FileVerifier,
  findings: Findings,
): void {
  const followers = new Map<string, string>();
  const latest = new Map<string, DatedCertificate>();
  for (const { number, previous, notices, issuedAtUtc } of chain) {
    const path = certificatePath(directory, number, 'json');
    const before = previous?.number ?? 'none';
    const other = followers.get(before);
    followers.set(before, number);
    const isOfOneChain = !findings.imported.has(number) && !findings.imported.has(other ?? '');
    if (other !== undefined && isOfOneChain) {
      const what = previous === null ? 'says that it is the first' : `follows ${before}`;
      findings.wrong(path, `${what}, as ${other} does: the chain is divided`);
    }
    checkPlace(directory, number, `certificate ${number}`, { previous, notices }, verifier, findings);
    const latestBefore = latest.get(before) ?? { number, issuedAtUtc };
    const isLatest = Date.parse(issuedAtUtc) >= Date.parse(latestBefore.issuedAtUtc);
    latest.set(number, isLatest ? { number, issuedAtUtc } : latestBefore);
    if (!isLatest) {
      const when = `issued ${issuedAtUtc}, before ${latestBefore.number} of ${latestBefore.issuedAtUtc}, which it follows`;
      findings.note(path, `${when}: the clock of the machine had been set back, or was ahead before`);
    }
  }
}

/** What was filed before something in the chain is still what it was. */
function checkPlace(
  directory: string,
  number: string,
  follower: string,
  { previous, notices }: ChainPlace,
  verifier: FileVerifier,
  findings: Findings,
): void {
  const folder = certificateFolder(directory);
  const named = notices.map(({ file, jsonSha256 }) => ({ file, sha256: jsonSha256 }));
  if (previous !== null) {
    named.push({ file: `${previous.number}.json`, sha256: previous.jsonSha256 });
    named.push({ file: `${previous.number}.pdf`, sha256: previous.pdfSha256 });
  }
  for (const { file, sha256 } of named) {
    const path = join(folder, file);
    const is = verifier.sha256Of(path);
    if (is === null) {
      // Between certificates of one pump stand those of others, which stayed where they were filed.
      if (!findings.imported.has(number)) findings.wrong(path, `it is missing: ${follower} follows it`);
    } else if (is !== sha256) findings.wrong(path, `is not what it was when ${follower} was filed`);
  }
}

/** A notice of withdrawal is whole with its signature, and stands in the chain as a certificate does. */
function checkWithdrawal(directory: string, number: string, verifier: FileVerifier, findings: Findings): void {
  const path = withdrawalPath(certificateFolder(directory), number, 'json');
  findings.filesRead += 2;
  const withdrawal = readSignedWithdrawal(certificateFolder(directory), number);
  if (withdrawal === null) findings.wrong(path, 'is not as it was signed, or its signature is missing');
  else checkPlace(directory, number, `the withdrawal of ${number}`, withdrawal, verifier, findings);
}

function checkRuns(directory: string, { number, runs }: CertificateData, findings: Findings): void {
  const path = certificatePath(directory, number, 'json');
  for (const { id, sha256 } of runs) {
    const closingPath = join(directory, 'runs', id, RUN_FILES.closing);
    if (!existsSync(closingPath)) {
      findings.wrong(path, `rests on run ${id}, which is missing`);
      continue;
    }
    try {
      const sealed = readRecordFile(runClosing, closingPath).sha256;
      for (const [name, expected] of Object.entries(sha256)) {
        if (Object.entries(sealed).some(([sealedName, is]) => sealedName === name && is !== expected)) {
          findings.wrong(closingPath, `seals another ${name} than certificate ${number} rests on`);
        }
      }
    } catch (error) {
      findings.wrong(closingPath, messageOf(error));
    }
  }
}
