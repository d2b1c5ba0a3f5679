import type { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type CertificateData, certificateData } from '../../analysis/certificate/certificateData.ts';
import { messageOf } from '../errors.ts';
import type { CertificateCheck, ChainCheck } from './certificateCheck.ts';
import { CertificateFileError } from './certificateErrors.ts';
import { sha256Of } from './certificateFolder.ts';
import { fingerprintOf, knownFingerprints } from './keys.ts';
import { verifyCms } from './signature/cms.ts';
import { certificateInJws, verifyJws } from './signature/jws.ts';
import { hasByteRange, readAttachment, readSignedPdf } from './signature/readSignedPdf.ts';

function parseData(json: Uint8Array): CertificateData | null {
  try {
    const parsed = certificateData.safeParse(JSON.parse(Buffer.from(json).toString('utf8')));
    return parsed.success ? parsed.data : null;
  } catch {
    return null;
  }
}

function readFile(path: string): Buffer {
  try {
    return readFileSync(path);
  } catch (cause) {
    throw new CertificateFileError(path, `cannot be read (${messageOf(cause)})`, { cause });
  }
}

/** The certificate before this one, where it lies in the same folder. */
function checkChain(folder: string, { previous }: CertificateData): ChainCheck {
  if (previous === null) return { state: 'first', text: 'It is the first of its archive.' };
  const files = [
    { path: join(folder, `${previous.number}.json`), sha256: previous.jsonSha256 },
    { path: join(folder, `${previous.number}.pdf`), sha256: previous.pdfSha256 },
  ].filter(({ path }) => existsSync(path));
  if (files.length === 0) {
    return { state: 'not here', text: `${previous.number}, the one before it, does not lie beside it.` };
  }
  const changed = files.find(({ path, sha256 }) => sha256Of(readFile(path)) !== sha256);
  if (changed === undefined) return { state: 'holds', text: `${previous.number}, the one before it, is what it was.` };
  return { state: 'broken', text: `${changed.path} is not what it was when this certificate was filed.` };
}

function whole(
  path: string,
  data: CertificateData,
  certificate: X509Certificate,
  knownKeys: ReadonlySet<string>,
): CertificateCheck {
  const certificateSha256 = fingerprintOf(certificate);
  return {
    state: 'whole',
    path,
    number: data.number,
    title: data.title,
    outcome: data.outcome,
    isSpecimen: data.isSpecimen,
    issuedAtUtc: data.issuedAtUtc,
    signatory: data.signatory,
    pumpName: data.pump.name,
    signedBy: { subject: certificate.subject.replaceAll('\n', ', '), certificateSha256 },
    isKeyKnown: knownKeys.has(certificateSha256),
    chain: checkChain(dirname(path), data),
    cannotKnow: data.verification.cannotKnow,
  };
}

function verifyPdf(path: string, knownKeys: ReadonlySet<string>): CertificateCheck {
  const no = (state: 'changed' | 'not a certificate', why: string): CertificateCheck => ({ state, path, why });
  const file = readFile(path);
  if (!hasByteRange(file)) return no('not a certificate', 'It carries no signature.');
  const signed = readSignedPdf(file);
  if (signed === null)
    return no('changed', 'The signature does not cover the whole file, or is not laid out as it was.');
  const certificate = verifyCms(signed.signature, signed.covered);
  if (certificate === null) return no('changed', 'The signature does not fit the bytes of the file.');
  const json = readAttachment(file);
  if (json === null) return no('not a certificate', 'It is signed, but no data are attached.');
  const data = parseData(json);
  if (data === null)
    return no('not a certificate', 'It is signed, but what is attached are not the data of a certificate.');
  const beside = path.replace(/\.pdf$/i, '.json');
  if (beside !== path && existsSync(beside) && !readFile(beside).equals(json)) {
    return no('changed', `The PDF is as it was signed, but ${beside} is not what is attached to it.`);
  }
  return whole(path, data, certificate, knownKeys);
}

async function verifyJson(path: string, knownKeys: ReadonlySet<string>): Promise<CertificateCheck> {
  const no = (state: 'changed' | 'not a certificate', why: string): CertificateCheck => ({ state, path, why });
  const json = readFile(path);
  const jwsPath = path.replace(/\.json$/i, '.jws');
  const data = parseData(json);
  if (!existsSync(jwsPath)) {
    return data === null
      ? no('not a certificate', 'It does not hold the data of a certificate.')
      : no('changed', `Its signature is missing: expected ${jwsPath}.`);
  }
  const jws = readFile(jwsPath).toString('latin1');
  const certificate = certificateInJws(jws);
  if (certificate === null) return no('changed', `${jwsPath} is no signature with its signer's certificate.`);
  if (!(await verifyJws(jws, json, certificate.publicKey))) {
    return no('changed', `The signature in ${jwsPath} does not fit the bytes of the file.`);
  }
  if (data === null) return no('not a certificate', 'It is signed, but does not hold the data of a certificate.');
  return whole(path, data, certificate, knownKeys);
}

/**
 * Verifies a certificate from the file alone: a PDF by the signature in it, a JSON file by the .jws beside it. Whatever
 * was done to the file, the answer is a report, never a throw.
 *
 * @param path - of a .pdf or a .json file [-]
 * @param knownKeys - SHA-256 of the certificates known here; this machine's key folder if left out [-]
 * @returns what was found [-]
 * @throws CertificateFileError if the file cannot be read
 */
export async function verifyCertificate(
  path: string,
  knownKeys: ReadonlySet<string> = knownFingerprints(),
): Promise<CertificateCheck> {
  if (/\.pdf$/i.test(path)) return verifyPdf(path, knownKeys);
  if (/\.json$/i.test(path)) return verifyJson(path, knownKeys);
  readFile(path);
  return { state: 'not a certificate', path, why: 'Its name ends neither in .pdf nor in .json.' };
}
