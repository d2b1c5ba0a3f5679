import { isUtf8 } from 'node:buffer';
import { z } from 'zod';
import { certificateData } from '../../analysis/certificate/certificateData.ts';
import { parseMembers } from '../archive/jsonMembers.ts';

const shape = certificateData.shape;

/** What verifying reads of a certificate. All else is covered by the signature, and a later version may hold more of it. */
const verifiedData = z.object({
  format: shape.format,
  number: shape.number,
  title: shape.title,
  outcome: shape.outcome,
  isSpecimen: shape.isSpecimen,
  issuedAtUtc: shape.issuedAtUtc,
  signatory: shape.signatory,
  pump: z.object({ name: z.string(), serialNumber: z.string() }),
  verification: z.object({ cannotKnow: z.array(z.string()) }),
  replaces: shape.replaces,
  previous: shape.previous,
  notices: shape.notices,
});
export type VerifiedData = z.infer<typeof verifiedData>;

/**
 * Reads of a certificate's data what verifying rests on.
 *
 * @param json - bytes that may be anything [-]
 * @returns null where they are not the data of a certificate, in UTF-8 [-]
 */
export function readVerifiedData(json: Uint8Array): VerifiedData | null {
  const bytes = Buffer.from(json.buffer, json.byteOffset, json.byteLength);
  if (!isUtf8(bytes)) return null;
  const members = parseMembers(verifiedData, bytes);
  if (members !== null) return members;
  try {
    return verifiedData.safeParse(JSON.parse(bytes.toString('utf8'))).data ?? null;
  } catch {
    return null;
  }
}
