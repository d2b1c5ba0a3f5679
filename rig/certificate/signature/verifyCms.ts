import { verify, type X509Certificate } from 'node:crypto';
import { OctetString, UTCTime } from 'asn1js';
import { Certificate, ContentInfo, SignedData, type SignerInfo } from 'pkijs';
import { assembleCms, bufferOf, CMS_OID, type CmsParts, signedAttributes } from './cms.ts';
import { type CmsMould, mouldFor, partsByMould } from './cmsMould.ts';
import { signerCertificate } from './signerCertificate.ts';

/** Signatures of one workshop have a few lengths; more moulds than these come from files that are not of one archive. */
const MOST_MOULDS = 100;
const moulds = new Map<number, CmsMould[]>();
let mouldCount = 0;

function attributeValue(info: SignerInfo, type: string): unknown {
  return info.signedAttrs?.attributes.find((attribute) => attribute.type === type)?.values[0];
}

function readParts(cms: Uint8Array): CmsParts | null {
  const content = ContentInfo.fromBER(bufferOf(cms));
  const signed = new SignedData({ schema: content.content });
  const [info] = signed.signerInfos;
  const certificate = signed.certificates?.[0];
  if (info === undefined || !(certificate instanceof Certificate)) return null;
  const digest = attributeValue(info, CMS_OID.messageDigest);
  const time = attributeValue(info, CMS_OID.signingTime);
  if (!(digest instanceof OctetString) || !(time instanceof UTCTime)) return null;
  return {
    certificate: new Uint8Array(certificate.toSchema().toBER()),
    messageDigest: digest.valueBlock.valueHexView,
    signedAt: time.toDate(),
    signature: info.signature.valueBlock.valueHexView,
  };
}

type Taken = Omit<CmsParts, 'signedAt'> & { readonly signedBytes: Uint8Array };

/** Takes a signature apart that must be, byte for byte, the one encoding of its parts. */
function takeApart(cms: Uint8Array): Taken | null {
  const parts = readParts(cms);
  if (parts === null || !Buffer.from(assembleCms(parts)).equals(cms)) return null;
  if (mouldCount >= MOST_MOULDS) {
    moulds.clear();
    mouldCount = 0;
  }
  const mould = mouldFor(parts.certificate, parts.signature.length);
  moulds.set(mould.bytes.length, [...(moulds.get(mould.bytes.length) ?? []), mould]);
  mouldCount += 1;
  return { ...parts, signedBytes: signedAttributes(parts).signedBytes };
}

/** The same in a thousandth of the time, where a signature by this signer and of this length was taken apart before. */
function takeFromMould(cms: Uint8Array): Taken | null {
  for (const mould of moulds.get(cms.length) ?? []) {
    const parts = partsByMould(cms, mould);
    if (parts !== null) return parts;
  }
  return null;
}

/**
 * Verifies a detached signature. It must be, byte for byte, the one encoding of its parts: nothing in it can be turned
 * without notice. The caller decides whether the certificate is one to trust.
 *
 * @param cms - the signature [DER]
 * @param sha256 - of the bytes that it is said to sign [-]
 * @returns the signer's certificate, or null for anything that is not a valid signature over these bytes [-]
 */
export function verifyCms(cms: Uint8Array, sha256: Uint8Array): X509Certificate | null {
  try {
    const taken = takeFromMould(cms) ?? takeApart(cms);
    if (taken === null || !Buffer.from(taken.messageDigest).equals(sha256)) return null;
    const certificate = signerCertificate(taken.certificate);
    return verify('sha256', taken.signedBytes, certificate.publicKey, taken.signature) ? certificate : null;
  } catch {
    // Whatever cannot be read is no signature.
    return null;
  }
}
