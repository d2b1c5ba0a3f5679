import type { X509Certificate } from 'node:crypto';
import type { ReadCertificate } from './certificateCheck.ts';
import { sha256Of } from './certificateFolder.ts';
import { fingerprintOf, subjectOf } from './keys.ts';
import { certificateInJws, verifyJws } from './signature/jws.ts';
import { hasByteRange, isCutShort, readAttachment, readSignedPdf } from './signature/readSignedPdf.ts';
import { verifyCms } from './signature/verifyCms.ts';
import { readVerifiedData, type VerifiedData } from './verifiedData.ts';

/** A file as somebody brought it. */
export type Presented = {
  /** Path or name; its ending says what it is. */
  readonly path: string;
  readonly bytes: Uint8Array;
  /** The file that lies beside it with another ending; null: none does. */
  readonly beside: (ending: 'json' | 'jws') => Uint8Array | null;
};

type No = (state: 'changed' | 'not a certificate', why: string) => ReadCertificate;

function whole(
  path: string,
  data: VerifiedData,
  jsonSha256: string,
  certificate: X509Certificate,
  files: { readonly pdf: string | null; readonly json: string | null },
): ReadCertificate {
  const { number, title, outcome, isSpecimen, issuedAtUtc, signatory, pump, replaces, previous, notices } = data;
  return {
    whole: {
      state: 'whole',
      path,
      number,
      title,
      outcome,
      isSpecimen,
      issuedAtUtc,
      signatory,
      pumpName: pump.name,
      serialNumber: pump.serialNumber,
      jsonSha256,
      pdfSha256: files.pdf,
      signedBy: { subject: subjectOf(certificate), certificateSha256: fingerprintOf(certificate) },
      replaces,
      cannotKnow: data.verification.cannotKnow,
    },
    place: { previous, notices },
    files,
  };
}

/** Why a PDF cannot be taken apart as a signed one. */
function unsigned(bytes: Uint8Array, no: No): ReadCertificate {
  if (isCutShort(bytes)) return no('changed', 'It does not end as a PDF does: it was cut short, or added to.');
  if (!hasByteRange(bytes)) return no('not a certificate', 'It carries no signature.');
  return no('changed', 'The signature does not cover the whole file, or is not laid out as it was.');
}

function readPdf({ path, bytes, beside }: Presented, no: No): ReadCertificate {
  const signed = readSignedPdf(bytes);
  if (signed === null) return unsigned(bytes, no);
  const certificate = verifyCms(signed.signature, signed.coveredSha256);
  if (certificate === null) return no('changed', 'The signature does not fit the bytes of the file.');
  const json = readAttachment(bytes);
  if (json === null) return no('not a certificate', 'It is signed, but no data are attached.');
  const data = readVerifiedData(json);
  if (data === null) {
    return no('not a certificate', 'It is signed, but what is attached are not the data of a certificate.');
  }
  const lying = beside('json');
  if (lying !== null && Buffer.compare(lying, json) !== 0) {
    return no('changed', `The PDF is as it was signed, but ${withEnding(path, 'json')} is not what is attached to it.`);
  }
  const jsonSha256 = sha256Of(json);
  return whole(path, data, jsonSha256, certificate, {
    pdf: signed.fileSha256,
    json: lying === null ? null : jsonSha256,
  });
}

function readJson({ path, bytes, beside }: Presented, no: No): ReadCertificate {
  const jwsPath = withEnding(path, 'jws');
  const data = readVerifiedData(bytes);
  const jws = beside('jws');
  if (jws === null) {
    return data === null
      ? no('not a certificate', 'It does not hold the data of a certificate.')
      : no('changed', `Its signature is missing: expected ${jwsPath}.`);
  }
  const text = Buffer.from(jws).toString('latin1');
  const certificate = certificateInJws(text);
  if (certificate === null) return no('changed', `${jwsPath} is no signature with its signer's certificate.`);
  if (!verifyJws(text, bytes, certificate.publicKey)) {
    return no('changed', `The signature in ${jwsPath} does not fit the bytes of the file.`);
  }
  if (data === null) return no('not a certificate', 'It is signed, but does not hold the data of a certificate.');
  const jsonSha256 = sha256Of(bytes);
  return whole(path, data, jsonSha256, certificate, { pdf: null, json: jsonSha256 });
}

/** The path of the file beside it that has another ending. */
export function withEnding(path: string, ending: 'json' | 'jws' | 'pdf'): string {
  return path.replace(/\.(?:pdf|json)$/i, `.${ending}`);
}

/**
 * Reads a certificate from its bytes alone: a PDF by the signature in it, a JSON file by the signature beside it. Whatever was
 * done to it, the answer is a report, never a throw.
 *
 * @param presented - the file [-]
 */
export function readPresented(presented: Presented): ReadCertificate {
  const { path } = presented;
  const no: No = (state, why) => ({ state, path, why });
  if (/\.pdf$/i.test(path)) return readPdf(presented, no);
  if (/\.json$/i.test(path)) return readJson(presented, no);
  return no('not a certificate', 'Its name ends neither in .pdf nor in .json.');
}
