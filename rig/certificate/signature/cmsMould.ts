import { assembleCms, type CmsParts, signedAttributes } from './cms.ts';

/**
 * Signatures by one signer, and of one length, are alike but for three parts: digest, time and signature. A mould is such a
 * signature with those parts marked. What equals it outside of them is the one encoding of its parts, as if it were assembled.
 */
export type CmsMould = {
  readonly bytes: Buffer;
  readonly certificate: Uint8Array;
  readonly digest: Span;
  readonly time: Span;
  readonly signature: Span;
  /** Signed as a SET, stored under another tag. */
  readonly attributes: Span;
};

type Span = { readonly from: number; readonly to: number };

/** Bytes to be found again; what signatures hold is never like these. */
const DIGEST = Buffer.alloc(32, 0xa5);
const TIME = '260101000000Z';
const TIME_FIELDS = /^(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)Z$/;
const SET_TAG = 0x31;

/** Behind the certificate, which may hold anything. */
function lastSpan(bytes: Buffer, part: Uint8Array | string): Span {
  const from = bytes.lastIndexOf(part, undefined, 'latin1');
  if (from === -1) throw new RangeError('a signature without one of its parts');
  return { from, to: from + part.length };
}

/**
 * @param certificate - of the signer [DER]
 * @param signatureLength - of the ECDSA signature [bytes]
 */
export function mouldFor(certificate: Uint8Array, signatureLength: number): CmsMould {
  const parts: CmsParts = {
    certificate,
    messageDigest: DIGEST,
    signedAt: new Date('2026-01-01T00:00:00Z'),
    signature: Buffer.alloc(signatureLength, 0x5a),
  };
  const bytes = Buffer.from(assembleCms(parts));
  const untagged = lastSpan(bytes, signedAttributes(parts).signedBytes.subarray(1));
  return {
    bytes,
    certificate,
    digest: lastSpan(bytes, DIGEST),
    time: lastSpan(bytes, TIME),
    signature: { from: bytes.length - signatureLength, to: bytes.length },
    attributes: { from: untagged.from - 1, to: untagged.to },
  };
}

/** A time that is written again as it stands (RFC 5652, 11.3: UTCTime until 2049). */
function isTime(text: string): boolean {
  const [, year, month, day, hour, minute, second] = TIME_FIELDS.exec(text) ?? [];
  const written = `20${year}-${month}-${day}T${hour}:${minute}:${second}.000Z`;
  const instant = new Date(written);
  return Number(year) < 50 && !Number.isNaN(instant.getTime()) && instant.toISOString() === written;
}

/**
 * Takes apart a signature that fills a mould.
 *
 * @param cms - the signature, as long as the mould [DER]
 * @param mould - of a signer [-]
 * @returns its parts and the bytes that its signer signed; null where it does not fill this mould [-]
 */
export function partsByMould(
  cms: Uint8Array,
  mould: CmsMould,
): (Omit<CmsParts, 'signedAt'> & { readonly signedBytes: Uint8Array }) | null {
  const filled = Buffer.from(mould.bytes);
  for (const { from, to } of [mould.digest, mould.time, mould.signature]) filled.set(cms.subarray(from, to), from);
  if (!filled.equals(cms) || !isTime(filled.toString('latin1', mould.time.from, mould.time.to))) return null;
  const part = ({ from, to }: Span): Buffer => Buffer.from(filled.subarray(from, to));
  const signedBytes = part(mould.attributes);
  signedBytes[0] = SET_TAG;
  return {
    certificate: mould.certificate,
    messageDigest: part(mould.digest),
    signature: part(mould.signature),
    signedBytes,
  };
}
