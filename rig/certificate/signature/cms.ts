import { createHash, sign } from 'node:crypto';
import { GeneralizedTime, Null, ObjectIdentifier, OctetString, Sequence, UTCTime } from 'asn1js';
import {
  AlgorithmIdentifier,
  Attribute,
  Certificate,
  ContentInfo,
  EncapsulatedContentInfo,
  IssuerAndSerialNumber,
  SignedAndUnsignedAttributes,
  SignedData,
  SignerInfo,
} from 'pkijs';
import type { WorkshopKeys } from '../keys.ts';

/** RFC 5652 (content types and attributes), RFC 5754 (algorithms), RFC 5035 (the certificate's own hash). */
export const CMS_OID = {
  data: '1.2.840.113549.1.7.1',
  signedData: '1.2.840.113549.1.7.2',
  contentType: '1.2.840.113549.1.9.3',
  messageDigest: '1.2.840.113549.1.9.4',
  signingTime: '1.2.840.113549.1.9.5',
  signingCertificateV2: '1.2.840.113549.1.9.16.2.47',
  sha256: '2.16.840.1.101.3.4.2.1',
  ecdsaWithSha256: '1.2.840.10045.4.3.2',
} as const;

/** From 2050 on, times are written with four digits of the year (RFC 5652, 11.3). */
const FIRST_LONG_YEAR = 2050;

/** What a detached signature of ours is made of; all its other bytes follow from these. */
export type CmsParts = {
  readonly certificate: Uint8Array;
  readonly messageDigest: Uint8Array;
  readonly signedAt: Date;
  readonly signature: Uint8Array;
};

function sha256(bytes: Uint8Array): Uint8Array {
  return createHash('sha256').update(bytes).digest();
}

/** A copy with a buffer of its own, as pkijs takes it. */
export function bufferOf(bytes: Uint8Array): ArrayBuffer {
  const copy = new ArrayBuffer(bytes.byteLength);
  new Uint8Array(copy).set(bytes);
  return copy;
}

/** In DER order: each is longer than the one before. */
export function signedAttributes({ certificate, messageDigest, signedAt }: Omit<CmsParts, 'signature'>) {
  const isLongYear = signedAt.getUTCFullYear() >= FIRST_LONG_YEAR;
  const time = isLongYear ? new GeneralizedTime({ valueDate: signedAt }) : new UTCTime({ valueDate: signedAt });
  const certificateHash = new OctetString({ valueHex: bufferOf(sha256(certificate)) });
  const certificateId = new Sequence({ value: [certificateHash] });
  const attributes = new SignedAndUnsignedAttributes({
    type: 0,
    attributes: [
      new Attribute({ type: CMS_OID.contentType, values: [new ObjectIdentifier({ value: CMS_OID.data })] }),
      new Attribute({ type: CMS_OID.signingTime, values: [time] }),
      new Attribute({ type: CMS_OID.messageDigest, values: [new OctetString({ valueHex: bufferOf(messageDigest) })] }),
      new Attribute({
        type: CMS_OID.signingCertificateV2,
        values: [new Sequence({ value: [new Sequence({ value: [certificateId] })] })],
      }),
    ],
  });
  const signedBytes = new Uint8Array(attributes.toSchema().toBER());
  // Signed as a SET, stored under an implicit tag (RFC 5652, 5.4).
  signedBytes[0] = 0x31;
  return { attributes, signedBytes };
}

/** The one encoding that these parts have. */
export function assembleCms(parts: CmsParts): Uint8Array {
  const certificate = Certificate.fromBER(bufferOf(parts.certificate));
  const digestAlgorithm = () => new AlgorithmIdentifier({ algorithmId: CMS_OID.sha256, algorithmParams: new Null() });
  const signed = new SignedData({
    version: 1,
    digestAlgorithms: [digestAlgorithm()],
    encapContentInfo: new EncapsulatedContentInfo({ eContentType: CMS_OID.data }),
    certificates: [certificate],
    signerInfos: [
      new SignerInfo({
        version: 1,
        sid: new IssuerAndSerialNumber({ issuer: certificate.issuer, serialNumber: certificate.serialNumber }),
        digestAlgorithm: digestAlgorithm(),
        signedAttrs: signedAttributes(parts).attributes,
        signatureAlgorithm: new AlgorithmIdentifier({ algorithmId: CMS_OID.ecdsaWithSha256 }),
        signature: new OctetString({ valueHex: bufferOf(parts.signature) }),
      }),
    ],
  });
  const content = new ContentInfo({ contentType: CMS_OID.signedData, content: signed.toSchema(true) });
  return new Uint8Array(content.toSchema().toBER());
}

/**
 * Signs bytes, detached: CMS SignedData with ECDSA P-256 and SHA-256, the certificate inside and bound by its hash.
 *
 * @param bytes - what is signed [-]
 * @param keys - the workshop's [-]
 * @param signedAt - stated time of signing, in whole seconds [-]
 * @returns the signature [DER]
 *
 * Source: RFC 5652 (CMS), RFC 5754 (algorithms), RFC 5035 (signing certificate).
 */
export function signCms(bytes: Uint8Array, keys: WorkshopKeys, signedAt: Date): Uint8Array {
  const parts = { certificate: keys.certificate.raw, messageDigest: sha256(bytes), signedAt };
  const { signedBytes } = signedAttributes(parts);
  return assembleCms({ ...parts, signature: sign('sha256', signedBytes, keys.privateKey) });
}
