import { X509Certificate } from 'node:crypto';

/** Read once each, however many certificates of one signer are verified; forgotten together once there are so many. */
const MOST_KNOWN = 100;
const known = new Map<string, X509Certificate>();

/**
 * A signer's certificate out of a signature.
 *
 * @param der - bytes that may be anything [-]
 * @returns a certificate whose subject and P-256 key can be read [-]
 * @throws Error if they cannot
 */
export function signerCertificate(der: Uint8Array): X509Certificate {
  const bytes = Buffer.from(der.buffer, der.byteOffset, der.byteLength).toString('latin1');
  const certificate = known.get(bytes) ?? readCertificate(der);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(bytes, certificate);
  return certificate;
}

function readCertificate(der: Uint8Array): X509Certificate {
  const certificate = new X509Certificate(der);
  if (!certificate.raw.equals(der)) throw new Error('expected a certificate and nothing behind it');
  // Both are read only when they are asked for, and throw or are missing in a certificate that was tampered with.
  const isNamed = typeof certificate.subject === 'string';
  if (!isNamed || certificate.publicKey.asymmetricKeyDetails?.namedCurve !== 'prime256v1') {
    throw new Error('expected a certificate with a subject and a key on P-256');
  }
  return certificate;
}
