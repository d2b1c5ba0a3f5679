import { X509Certificate } from 'node:crypto';

/**
 * A signer's certificate out of a signature.
 *
 * @param der - bytes that may be anything [-]
 * @returns a certificate whose subject and P-256 key can be read [-]
 * @throws Error if they cannot
 */
export function signerCertificate(der: Uint8Array): X509Certificate {
  const certificate = new X509Certificate(der);
  // Both are read only when they are asked for, and throw or are missing in a certificate that was tampered with.
  const isNamed = typeof certificate.subject === 'string';
  if (!isNamed || certificate.publicKey.asymmetricKeyDetails?.namedCurve !== 'prime256v1') {
    throw new Error('expected a certificate with a subject and a key on P-256');
  }
  return certificate;
}
