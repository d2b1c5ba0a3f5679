import { type KeyObject, verify, type X509Certificate } from 'node:crypto';
import { CompactSign } from 'jose';
import { z } from 'zod';
import type { WorkshopKeys } from '../keys.ts';
import { signerCertificate } from './signerCertificate.ts';

/** Nothing else: what a verifier does not understand it must not pass over (RFC 7515, 4.1.11). */
const header = z.strictObject({ alg: z.literal('ES256'), x5c: z.tuple([z.base64()]).optional() });

const DETACHED = /^([A-Za-z0-9_-]+)\.\.([A-Za-z0-9_-]+)$/;

/** Of ES256: r and s, 32 octets each (RFC 7518, 3.4). */
const SIGNATURE_BYTES = 64;

type Taken = {
  readonly protectedHeader: string;
  readonly certificate: string | undefined;
  readonly signature: Buffer;
};

/** Fifteen other last characters decode alike: only the one that encodes back is taken. */
function decoded(text: string): Buffer | null {
  const bytes = Buffer.from(text, 'base64url');
  return bytes.toString('base64url') === text ? bytes : null;
}

/** Null for anything that is not laid out as it must be. */
function takeApart(jws: string): Taken | null {
  const [, protectedHeader = '', signatureText = ''] = DETACHED.exec(jws) ?? [];
  const [headerBytes, signature] = [decoded(protectedHeader), decoded(signatureText)];
  if (headerBytes === null || signature?.length !== SIGNATURE_BYTES) return null;
  try {
    const { x5c } = header.parse(JSON.parse(headerBytes.toString('utf8')));
    return { protectedHeader, certificate: x5c?.[0], signature };
  } catch {
    return null;
  }
}

/**
 * Signs bytes, detached: a JWS by ES256 whose header carries the signer's certificate (x5c).
 *
 * @param bytes - what is signed; it stays where it is, as it is [-]
 * @param keys - the workshop's [-]
 * @returns header, nothing, signature [JWS compact serialisation]
 *
 * Source: RFC 7515, appendix F (detached content); RFC 7518, 3.4 (ES256).
 */
export async function signJws(bytes: Uint8Array, keys: WorkshopKeys): Promise<string> {
  const compact = await new CompactSign(bytes)
    .setProtectedHeader({ alg: 'ES256', x5c: [keys.certificate.raw.toString('base64')] })
    .sign(keys.privateKey);
  const [protectedHeader, , signature] = compact.split('.');
  return `${protectedHeader}..${signature}`;
}

/**
 * Whether a detached JWS signs these bytes by this key.
 *
 * @param jws - header, nothing, signature [JWS compact serialisation]
 * @param bytes - what it is said to sign [-]
 * @param publicKey - of the signer, P-256 [-]
 * @returns false for anything malformed too, and for base64url that is not the canonical one [-]
 */
export function verifyJws(jws: string, bytes: Uint8Array, publicKey: KeyObject): boolean {
  const taken = takeApart(jws);
  if (taken === null || publicKey.asymmetricKeyDetails?.namedCurve !== 'prime256v1') return false;
  const payload = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('base64url');
  const signed = Buffer.from(`${taken.protectedHeader}.${payload}`, 'latin1');
  return verify('sha256', signed, { key: publicKey, dsaEncoding: 'ieee-p1363' }, taken.signature);
}

/** The certificate in a JWS's header; null where there is none that can be read. */
export function certificateInJws(jws: string): X509Certificate | null {
  const der = takeApart(jws)?.certificate;
  if (der === undefined) return null;
  try {
    return signerCertificate(Buffer.from(der, 'base64'));
  } catch {
    return null;
  }
}
