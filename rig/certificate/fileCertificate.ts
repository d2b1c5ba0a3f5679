import { mkdirSync } from 'node:fs';
import { buildCertificate } from '../../analysis/certificate/buildCertificate.ts';
import { type CertificateData, noticeReason } from '../../analysis/certificate/certificateData.ts';
import type { CertificateRefusal } from '../../analysis/certificate/certificateRefusal.ts';
import type { CertifiedRun } from '../../analysis/certificate/certifiedRun.ts';
import { type DatedCertificate, dateDoubts } from '../../analysis/certificate/dateDoubts.ts';
import { type Outcome, yes } from '../../analysis/outcome.ts';
import type { Handover } from '../../analysis/records/handover.ts';
import type { DryTogether } from '../../analysis/resultSchema/dryTogetherSchema.ts';
import {
  type CertificateEnding,
  certificateFolder,
  certificatePath,
  nextNumber,
  nextPlace,
} from './certificateFolder.ts';
import { certificateText } from './certificateText.ts';
import { fingerprintOf, type WorkshopKeys } from './keys.ts';
import { certificatePdf } from './pdf/certificatePdf.ts';
import type { PlotReadings } from './pdf/plotReadings.ts';
import type { PaperName } from './pdf/style.ts';
import { signJws } from './signature/jws.ts';
import { signPdf } from './signature/signPdf.ts';
import { readStandingCertificate } from './standingCertificate.ts';

/** What filing needs of an archive. */
export type FilingArchive = {
  readonly directory: string;
  withFilingLock<Value>(file: () => Promise<Value>): Promise<Value>;
  /** All of the files or none: `<name>.<ending>` among the certificates. */
  fileTogether(name: string, files: Readonly<Record<string, string | Uint8Array>>): void;
  addCertificate(data: CertificateData): void;
  /** That of the latest date; null: none is filed. */
  newestCertificate(): DatedCertificate | null;
};

export type FilingRequest = {
  readonly archive: FilingArchive;
  readonly keys: WorkshopKeys;
  readonly signatory: string;
  readonly programVersion: string;
  readonly issuedAt: Date;
  readonly runs: readonly CertifiedRun[];
  /** Pairs of a lift and a blanked run among them, fitted together; left out: none. */
  readonly together?: readonly DryTogether[] | undefined;
  /** Readings to be drawn, by run id; a dry-lift run without them has no plot. */
  readonly readings: PlotReadings;
  /** The certificate whose place the new one takes; left out: none's. */
  readonly replaces?: { readonly number: string; readonly reason: string } | undefined;
  /** What is stated on the day the pump is sealed; left out: nothing. */
  readonly handover?: Handover | undefined;
  /** A4 where nobody asks for another. */
  readonly paper?: PaperName | undefined;
};

export type FiledCertificate = {
  readonly number: string;
  readonly data: CertificateData;
  readonly paths: Readonly<Record<CertificateEnding, string>>;
};

/** Whole seconds: a PDF's dates know no others. */
export function utcSecond(instant: Date): string {
  return `${instant.toISOString().slice(0, 19)}Z`;
}

async function fileNumbered(request: FilingRequest): Promise<Outcome<FiledCertificate, CertificateRefusal>> {
  const { archive, keys, signatory, programVersion, runs, together = [], readings } = request;
  const { directory } = archive;
  const old = request.replaces === undefined ? null : readStandingCertificate(directory, request.replaces.number);
  mkdirSync(certificateFolder(directory), { recursive: true });
  const number = nextNumber(directory, request.issuedAt);
  const issuedAtUtc = utcSecond(request.issuedAt);
  const built = buildCertificate({
    number,
    issuedAtUtc,
    dateDoubts: dateDoubts(issuedAtUtc, runs, archive.newestCertificate()),
    signatory,
    workshop: runs[0]?.run.bench.workshop ?? '',
    replaces:
      old === null || request.replaces === undefined
        ? null
        : { number: old.data.number, jsonSha256: old.jsonSha256, reason: noticeReason.parse(request.replaces.reason) },
    place: nextPlace(directory),
    handover: request.handover ?? null,
    programVersion,
    runs,
    together,
  });
  if (!built.ok) return built;
  const data = built.value;
  // Made once: these bytes are stored, attached, signed and verified.
  const json = Buffer.from(certificateText(data));
  const signer = { subject: keys.certificate.subject, fingerprint: fingerprintOf(keys.certificate) };
  const jws = await signJws(json, keys);
  const pdf = await signPdf(
    await certificatePdf({ data, json, signer, readings, paper: request.paper }),
    keys,
    new Date(issuedAtUtc),
  );

  const pathOf = (ending: CertificateEnding) => certificatePath(directory, number, ending);
  const paths = { json: pathOf('json'), jws: pathOf('jws'), pdf: pathOf('pdf') };
  archive.fileTogether(number, { json, jws, pdf });
  archive.addCertificate(data);
  return yes({ number, data, paths });
}

/**
 * Files a certificate: numbered, chained to the one before it, signed, written as JSON, JWS and PDF. Nobody else files
 * meanwhile.
 *
 * @param request - archive, key, signatory, date, the sealed runs with their results, and readings to be drawn [SI]
 * @returns number, data and paths, or the reason why the runs do not allow a certificate; nothing was written then [-]
 * @throws ArchiveError if the files cannot be written
 * @throws UnknownCertificateError or CertificateStandingError if the one to be replaced is not there or stands no more
 */
export async function fileCertificate(request: FilingRequest): Promise<Outcome<FiledCertificate, CertificateRefusal>> {
  return request.archive.withFilingLock(() => fileNumbered(request));
}
