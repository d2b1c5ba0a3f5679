import type { CertificateRefusal } from '../../analysis/certificate/certificateRefusal.ts';
import { type DecimatedReadings, decimate } from '../../analysis/decimate.ts';
import { fittedPairs } from '../../analysis/dryLift/fittedPairs.ts';
import type { Outcome } from '../../analysis/outcome.ts';
import type { Archive } from '../archive/openArchive.ts';
import { type FiledCertificate, type FilingRequest, fileCertificate } from '../certificate/fileCertificate.ts';
import { PROGRAM_VERSION } from '../programVersion.ts';
import { analyseStoredRun } from './analyseStoredRun.ts';
import { keysFor } from './signingKeys.ts';

/** Rows of a run that are drawn on paper: more than its dots. */
const DRAWN_ROWS = 2000;

/** What may be asked for besides. */
export type FilingWishes = Pick<FilingRequest, 'replaces' | 'handover' | 'paper'>;

/**
 * Files a certificate on sealed runs of an archive. Each run is checked against its closing and analysed anew; specimens
 * are signed with a key of their own, so that the workshop's never stands under a practice run.
 *
 * @param archive - where the runs are and the certificate goes [-]
 * @param runIds - runs of one pump [-]
 * @param signatory - who answers for it [-]
 * @param wishes - the certificate whose place it takes, what is stated on the day of sealing, the paper [-]
 * @returns the filed certificate, or why the runs do not allow one [-]
 * @throws RunError, ChangedError, KeyError or ArchiveError
 * @throws UnknownCertificateError or CertificateStandingError if the one to be replaced is not there or stands no more
 */
export async function fileRunCertificate(
  archive: Archive,
  runIds: readonly string[],
  signatory: string,
  wishes: FilingWishes = {},
): Promise<Outcome<FiledCertificate, CertificateRefusal>> {
  const analysed = runIds.map((runId) => analyseStoredRun(archive, runId));
  const runs = analysed.map(({ sealed: { run, closing }, decoded, result }) => ({
    run,
    closing,
    result,
    readings: decoded.readings,
  }));
  const readings: Record<string, DecimatedReadings> = {};
  for (const { sealed, decoded } of analysed) readings[sealed.run.id] = decimate(decoded.readings, DRAWN_ROWS);
  const isSpecimen = analysed.some(({ result }) => result.isPractice);
  const issuedAt = new Date();
  const workshop = analysed[0]?.sealed.run.bench.workshop ?? '';
  return fileCertificate({
    archive,
    keys: await keysFor(workshop, issuedAt, isSpecimen),
    signatory,
    programVersion: PROGRAM_VERSION,
    issuedAt,
    runs: runs.map(({ run, closing, result }) => ({ run, closing, result })),
    together: fittedPairs(runs),
    readings,
    ...wishes,
  });
}
