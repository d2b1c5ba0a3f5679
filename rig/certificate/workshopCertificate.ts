import { randomBytes, webcrypto } from 'node:crypto';
import {
  BasicConstraintsExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  SubjectKeyIdentifierExtension,
  X509CertificateGenerator,
} from '@peculiar/x509';

/** A certificate must be checkable in thirty years; the key's own one ends ten years later. */
const VALID_YEARS = 40;

/** X.520, upper bound of a common name. */
const MOST_NAME_LETTERS = 64;

const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const;

/** RFC 5280, 4.1.2.2: positive, at most twenty octets. */
function serialNumber(): string {
  const bytes = randomBytes(16);
  bytes[0] = ((bytes[0] ?? 0) & 0x7f) | 0x40;
  return bytes.toString('hex');
}

function asPem(label: string, der: ArrayBuffer): string {
  const lines =
    Buffer.from(der)
      .toString('base64')
      .match(/.{1,64}/g) ?? [];
  return `-----BEGIN ${label}-----\n${lines.join('\n')}\n-----END ${label}-----\n`;
}

/**
 * Makes a workshop's signing key, ECDSA on P-256, and the X.509 certificate by which it signs itself.
 *
 * @param workshop - name of the workshop, the subject of the certificate [-]
 * @param madeOn - day on which the certificate's validity begins [-]
 * @returns private key (PKCS #8) and certificate, one behind the other [PEM]
 */
export async function makeWorkshopCertificate(workshop: string, madeOn: Date): Promise<string> {
  const keys = await webcrypto.subtle.generateKey(CURVE, true, ['sign', 'verify']);
  const notBefore = new Date(Date.UTC(madeOn.getUTCFullYear(), madeOn.getUTCMonth(), madeOn.getUTCDate()));
  const notAfter = new Date(notBefore);
  notAfter.setUTCFullYear(notBefore.getUTCFullYear() + VALID_YEARS);
  const certificate = await X509CertificateGenerator.createSelfSigned(
    {
      serialNumber: serialNumber(),
      name: [{ CN: [workshop.slice(0, MOST_NAME_LETTERS)] }, { OU: ['pump certificates'] }],
      notBefore,
      notAfter,
      keys,
      signingAlgorithm: { name: 'ECDSA', hash: 'SHA-256' },
      extensions: [
        new BasicConstraintsExtension(false, undefined, true),
        new KeyUsagesExtension(KeyUsageFlags.digitalSignature | KeyUsageFlags.nonRepudiation, true),
        await SubjectKeyIdentifierExtension.create(keys.publicKey, false, webcrypto),
      ],
    },
    webcrypto,
  );
  const privateKey = await webcrypto.subtle.exportKey('pkcs8', keys.privateKey);
  return asPem('PRIVATE KEY', privateKey) + asPem('CERTIFICATE', certificate.rawData);
}
