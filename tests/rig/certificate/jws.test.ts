import { createPublicKey } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { certificateInJws, signJws, verifyJws } from '../../../rig/certificate/signature/jws.ts';
import { certificateRig } from '../../support/filedCertificates.ts';

/** RFC 7515, appendix A.3: the example of ES256, its payload detached. */
const RFC_7515_A3 = {
  header: 'eyJhbGciOiJFUzI1NiJ9',
  payload: '{"iss":"joe",\r\n "exp":1300819380,\r\n "http://example.com/is_root":true}',
  signature: 'DtEhU3ljbEg8L38VWAfUAqOyKAM6-Xx-F4GawxaepmXFCgfTjDxw5djxLa8ISlSApmWQxfKTUJqPP3-Kg6NU1Q',
  key: {
    kty: 'EC',
    crv: 'P-256',
    x: 'f83OJ3D2xF1Bg8vub9tLe1gHMzV76e8Tus9uPHvRVEU',
    y: 'x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a0',
  },
};

describe('a detached JWS', () => {
  const publicKey = createPublicKey({ key: RFC_7515_A3.key, format: 'jwk' });
  const payload = Buffer.from(RFC_7515_A3.payload);

  it('of RFC 7515, A.3, verifies', async () => {
    const { header, signature } = RFC_7515_A3;
    expect(verifyJws(`${header}..${signature}`, payload, publicKey)).toBe(true);
  });

  it('of RFC 7515, A.3, does not verify over one other byte', async () => {
    const { header, signature } = RFC_7515_A3;
    const other = Buffer.from(payload);
    other[5] = (other[5] ?? 0) ^ 1;
    expect(verifyJws(`${header}..${signature}`, other, publicKey)).toBe(false);
  });

  it('is refused with any of the fifteen other last characters that decode alike', async () => {
    const { header, signature } = RFC_7515_A3;
    const alike = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_']
      .map((last) => signature.slice(0, -1) + last)
      .filter(
        (text) => text !== signature && Buffer.from(text, 'base64url').equals(Buffer.from(signature, 'base64url')),
      );
    expect(alike).toHaveLength(15);
    for (const text of alike) expect(verifyJws(`${header}..${text}`, payload, publicKey)).toBe(false);
  });

  it('is refused, not thrown, when it is malformed', async () => {
    const { header, signature } = RFC_7515_A3;
    const malformed = [
      '',
      '..',
      'x',
      `${header}.${signature}`,
      `${header}..${signature}\n`,
      `${header}=..${signature}`,
    ];
    for (const jws of [...malformed, `${header}..${signature.slice(4)}`, `AAAA..${signature}`]) {
      expect(verifyJws(jws, payload, publicKey)).toBe(false);
      expect(certificateInJws(jws)).toBeNull();
    }
  });

  it('carries the certificate of its signer', async () => {
    const { keys } = await certificateRig();
    const jws = await signJws(payload, keys);
    const certificate = certificateInJws(jws);
    expect(certificate?.raw.equals(keys.certificate.raw)).toBe(true);
    expect(verifyJws(jws, payload, keys.certificate.publicKey)).toBe(true);
    expect(verifyJws(jws, payload, publicKey)).toBe(false);
  });
});
