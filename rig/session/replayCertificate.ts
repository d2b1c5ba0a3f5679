import { existsSync, readFileSync } from 'node:fs';
import { analyseRun } from '../../analysis/analyseRun.ts';
import { ANALYSIS_VERSION, changesBetween } from '../../analysis/analysisVersion.ts';
import { buildCertificate } from '../../analysis/certificate/buildCertificate.ts';
import { type CertificateData, certificateData } from '../../analysis/certificate/certificateData.ts';
import type { CertificateRefusal } from '../../analysis/certificate/certificateRefusal.ts';
import type { CertifiedRun } from '../../analysis/certificate/certifiedRun.ts';
import { type CertificateComparison, compareCertificates } from '../../analysis/certificate/compareCertificates.ts';
import { fittedPairs } from '../../analysis/dryLift/fittedPairs.ts';
import type { ReadDryRun } from '../../analysis/dryLift/fittedTogether.ts';
import { type Outcome, yes } from '../../analysis/outcome.ts';
import { placeMarks } from '../../analysis/placeMarks.ts';
import { ChangedError } from '../archive/archiveErrors.ts';
import type { Archive } from '../archive/openArchive.ts';
import { parseRecord } from '../archive/recordFile.ts';
import { UnknownCertificateError } from '../certificate/certificateErrors.ts';
import { certificateFolder, certificatePath } from '../certificate/certificateFolder.ts';
import { readAttachment } from '../certificate/signature/readSignedPdf.ts';
import { FileVerifier } from '../certificate/verifyCertificate.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';

export type Replay = CertificateComparison & {
  readonly number: string;
  /** Of the analysis: those of its runs when it was filed, and the one that did it anew. */
  readonly analysisVersions: { readonly filed: readonly string[]; readonly today: string };
  /** Of the program: the one that filed it, and this one. */
  readonly programVersions: { readonly filed: string; readonly today: string };
  /** Versions of the analysis, among those of its runs, that came after this program: what they changed is not known here. */
  readonly laterVersions: readonly string[];
  /** Why numbers may differ: what was changed in the analysis since, oldest first; empty: nothing that is known here. */
  readonly changes: readonly string[];
};

/**
 * Does everything that a certificate says anew, from the journals of the runs that it rests on, and compares. Neither the
 * certificate nor anything that is kept of the runs is touched.
 *
 * @param archive - where the runs are [-]
 * @param certificate - number of a certificate in the archive, or the path of its PDF or JSON [-]
 * @returns what differs, or why these runs allow no certificate any more [-]
 * @throws UnknownCertificateError if there is none
 * @throws ChangedError if the certificate, or a run that it rests on, is not what it was; RunError if a run is missing
 */
export async function replayCertificate(
  archive: Archive,
  certificate: string,
): Promise<Outcome<Replay, CertificateRefusal>> {
  const data = readVerified(archive, certificate);
  const analysed = data.runs.map((run) => analyseCertified(archive, run));
  const { number, issuedAtUtc, dateDoubts, signatory, workshop, replaces, previous, notices, handover } = data;
  const { programVersion } = data;
  const place = { previous, notices };
  const built = buildCertificate({
    number,
    issuedAtUtc,
    dateDoubts,
    signatory,
    workshop,
    replaces,
    place,
    handover,
    programVersion,
    runs: analysed.map(({ run, closing, result }) => ({ run, closing, result })),
    together: fittedPairs(analysed),
  });
  if (!built.ok) return built;
  const filed = [...new Set(data.runs.map(({ analysisVersion }) => analysisVersion))];
  const oldest = String(Math.min(...filed.map(Number)));
  const today = ANALYSIS_VERSION;
  return yes({
    number,
    analysisVersions: { filed, today },
    programVersions: { filed: programVersion, today: PROGRAM_VERSION },
    laterVersions: filed.filter((version) => !(Number(version) <= Number(today))),
    changes: changesBetween(oldest, today),
    ...compareCertificates(withVersion(data, today), withVersion(built.value, today)),
  });
}

/** The version is told by itself: it is no number that came out differently. */
function withVersion(data: CertificateData, analysisVersion: string): CertificateData {
  return { ...data, runs: data.runs.map((run) => ({ ...run, analysisVersion })) };
}

function readVerified(archive: Archive, certificate: string): CertificateData {
  const inArchive = certificatePath(archive.directory, certificate, 'json');
  const path = existsSync(inArchive) ? inArchive : certificate;
  if (!existsSync(path)) throw new UnknownCertificateError(certificate);
  const check = new FileVerifier(undefined, certificateFolder(archive.directory)).verify(path);
  if (check.state !== 'whole') throw new ChangedError(path, check.why);
  const bytes = readFileSync(path);
  const json = /\.pdf$/i.test(path) ? readAttachment(bytes) : bytes;
  return parseRecord(certificateData, JSON.parse(Buffer.from(json ?? []).toString('utf8')), path);
}

/** A run analysed with what was taken out of its fit when it was certified, whatever was said since. */
function analyseCertified(archive: Archive, certified: CertificateData['runs'][number]): CertifiedRun & ReadDryRun {
  const sealed = archive.readRun(certified.id);
  const { folder, run, closing } = sealed;
  for (const name of ['run', 'journal', 'marks'] as const) {
    if (closing.sha256[name] === certified.sha256[name]) continue;
    throw new ChangedError(`${name} of run ${run.id}`, `the certificate rests on SHA-256 ${certified.sha256[name]}`);
  }
  const { readings, census, isPractice, firstArrivalUs, speedUp } = readRunReadings(folder, run);
  const marks = placeMarks(sealed.marks, firstArrivalUs, speedUp);
  const result = analyseRun({ run, readings, census, isPractice, exclusions: certified.exclusions, marks });
  return { run, closing, result, readings };
}
