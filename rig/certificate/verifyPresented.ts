import type { X509Certificate } from 'node:crypto';
import { z } from 'zod';
import { type ChainPlace, certificateData } from '../../analysis/certificate/certificateData.ts';
import type { CertificateCheck, ChainCheck, StandingCheck } from './certificateCheck.ts';
import { sha256Of } from './certificateFolder.ts';
import type { CertificateLedger } from './certificateLedger.ts';
import { fingerprintOf, subjectOf } from './keys.ts';
import { verifyCms } from './signature/cms.ts';
import { certificateInJws, verifyJws } from './signature/jws.ts';
import { hasByteRange, readAttachment, readSignedPdf } from './signature/readSignedPdf.ts';

/** A file as somebody brought it. */
export type Presented = {
  /** Path or name; its ending says what it is. */
  readonly path: string;
  readonly bytes: Uint8Array;
  /** The file that lies beside it with another ending; null: none does. */
  readonly beside: (ending: 'json' | 'jws') => Uint8Array | null;
};

export type Knowledge = {
  /** SHA-256 of the certificates of keys that are known here. */
  readonly knownKeys: ReadonlySet<string>;
  /** Folders of certificates that may know more, the nearest first. */
  readonly ledgers: readonly CertificateLedger[];
};

const shape = certificateData.shape;

/** What verifying reads of a certificate. All else is covered by the signature, and a later version may hold more of it. */
const verifiedData = z.looseObject({
  format: shape.format,
  number: shape.number,
  title: shape.title,
  outcome: shape.outcome,
  isSpecimen: shape.isSpecimen,
  issuedAtUtc: shape.issuedAtUtc,
  signatory: shape.signatory,
  pump: z.looseObject({ name: z.string(), serialNumber: z.string() }),
  verification: z.looseObject({ cannotKnow: z.array(z.string()) }),
  replaces: shape.replaces,
  previous: shape.previous,
  notices: shape.notices,
});
type VerifiedData = z.infer<typeof verifiedData>;

function parseData(json: Uint8Array): VerifiedData | null {
  try {
    const parsed = verifiedData.safeParse(JSON.parse(Buffer.from(json).toString('utf8')));
    return parsed.success ? parsed.data : null;
  } catch {
    return null;
  }
}

/** The first that knows; else what the nearest says. */
function chainIn(ledgers: readonly CertificateLedger[], place: ChainPlace): ChainCheck {
  const checks = ledgers.map((ledger) => ledger.chainBefore(place));
  const known = checks.find(({ state }) => state !== 'not here') ?? checks[0];
  return known ?? { state: 'not here', text: 'What was filed before it is not looked for.' };
}

async function standingIn(
  ledgers: readonly CertificateLedger[],
  number: string,
  jsonSha256: string,
): Promise<StandingCheck> {
  const checks = await Promise.all(ledgers.map((ledger) => ledger.standingOf(number, jsonSha256)));
  // The archive's word counts before that of a folder in which only the certificate itself lies.
  const order = ['another', 'changed notice', 'withdrawn', 'replaced', 'issued'] as const;
  const known = order.flatMap((state) => checks.find((check) => check.state === state) ?? [])[0] ?? checks[0];
  return known ?? { state: 'not told', text: 'Whether it still stands is not known here.' };
}

async function whole(
  path: string,
  data: VerifiedData,
  json: Uint8Array,
  certificate: X509Certificate,
  { knownKeys, ledgers }: Knowledge,
): Promise<CertificateCheck> {
  const certificateSha256 = fingerprintOf(certificate);
  const jsonSha256 = sha256Of(json);
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
    serialNumber: data.pump.serialNumber,
    jsonSha256,
    signedBy: { subject: subjectOf(certificate), certificateSha256 },
    isKeyKnown: knownKeys.has(certificateSha256),
    replaces: data.replaces,
    chain: chainIn(ledgers, { previous: data.previous, notices: data.notices }),
    standing: await standingIn(ledgers, data.number, jsonSha256),
    cannotKnow: data.verification.cannotKnow,
  };
}

type No = (state: 'changed' | 'not a certificate', why: string) => CertificateCheck;

async function verifyPdf({ path, bytes, beside }: Presented, knowledge: Knowledge, no: No): Promise<CertificateCheck> {
  if (!hasByteRange(bytes)) return no('not a certificate', 'It carries no signature.');
  const signed = readSignedPdf(bytes);
  if (signed === null) {
    return no('changed', 'The signature does not cover the whole file, or is not laid out as it was.');
  }
  const certificate = verifyCms(signed.signature, signed.covered);
  if (certificate === null) return no('changed', 'The signature does not fit the bytes of the file.');
  const json = readAttachment(bytes);
  if (json === null) return no('not a certificate', 'It is signed, but no data are attached.');
  const data = parseData(json);
  if (data === null) {
    return no('not a certificate', 'It is signed, but what is attached are not the data of a certificate.');
  }
  const lying = beside('json');
  if (lying !== null && !Buffer.from(lying).equals(json)) {
    return no('changed', `The PDF is as it was signed, but ${withEnding(path, 'json')} is not what is attached to it.`);
  }
  return whole(path, data, json, certificate, knowledge);
}

async function verifyJson({ path, bytes, beside }: Presented, knowledge: Knowledge, no: No): Promise<CertificateCheck> {
  const jwsPath = withEnding(path, 'jws');
  const data = parseData(bytes);
  const jws = beside('jws');
  if (jws === null) {
    return data === null
      ? no('not a certificate', 'It does not hold the data of a certificate.')
      : no('changed', `Its signature is missing: expected ${jwsPath}.`);
  }
  const text = Buffer.from(jws).toString('latin1');
  const certificate = certificateInJws(text);
  if (certificate === null) return no('changed', `${jwsPath} is no signature with its signer's certificate.`);
  if (!(await verifyJws(text, bytes, certificate.publicKey))) {
    return no('changed', `The signature in ${jwsPath} does not fit the bytes of the file.`);
  }
  if (data === null) return no('not a certificate', 'It is signed, but does not hold the data of a certificate.');
  return whole(path, data, bytes, certificate, knowledge);
}

/** The path of the file beside it that has another ending. */
export function withEnding(path: string, ending: 'json' | 'jws'): string {
  return path.replace(/\.(?:pdf|json)$/i, `.${ending}`);
}

/**
 * Verifies a certificate from its bytes alone: a PDF by the signature in it, a JSON file by the signature beside it.
 * Whatever was done to it, the answer is a report, never a throw.
 *
 * @param presented - the file [-]
 * @param knowledge - keys and certificates that are known here [-]
 */
export async function verifyPresented(presented: Presented, knowledge: Knowledge): Promise<CertificateCheck> {
  const { path } = presented;
  const no: No = (state, why) => ({ state, path, why });
  if (/\.pdf$/i.test(path)) return verifyPdf(presented, knowledge, no);
  if (/\.json$/i.test(path)) return verifyJson(presented, knowledge, no);
  return no('not a certificate', 'Its name ends neither in .pdf nor in .json.');
}
