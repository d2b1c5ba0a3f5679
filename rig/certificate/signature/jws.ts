import type { KeyObject, X509Certificate } from 'node:crypto';
import { CompactSign, decodeProtectedHeader, flattenedVerify } from 'jose';
import { z } from 'zod';
import type { WorkshopKeys } from '../keys.ts';
import { signerCertificate } from './signerCertificate.ts';

const header = z.strictObject({ alg: z.literal('ES256'), x5c: z.tuple([z.base64()]) });

const DETACHED = /^([A-Za-z0-9_-]+)\.\.([A-Za-z0-9_-]+)$/;

function base64url(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64url');
}

/** Fifteen other last characters decode alike: only the one that encodes back is taken. */
function isCanonical(text: string): boolean {
  return base64url(Buffer.from(text, 'base64url')) === text;
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
export async function verifyJws(jws: string, bytes: Uint8Array, publicKey: KeyObject): Promise<boolean> {
  const [, protectedHeader, signature] = DETACHED.exec(jws) ?? [];
  if (protectedHeader === undefined || signature === undefined) return false;
  if (!isCanonical(protectedHeader) || !isCanonical(signature)) return false;
  try {
    const flattened = { protected: protectedHeader, payload: base64url(bytes), signature };
    await flattenedVerify(flattened, publicKey, { algorithms: ['ES256'] });
    return true;
  } catch {
    return false;
  }
}

/** The certificate in a JWS's header; null where there is none that can be read. */
export function certificateInJws(jws: string): X509Certificate | null {
  try {
    const { x5c } = header.parse(decodeProtectedHeader(jws));
    return signerCertificate(Buffer.from(x5c[0], 'base64'));
  } catch {
    return null;
  }
}
