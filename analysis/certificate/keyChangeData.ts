import { z } from 'zod';
import { sha256Hex, utcInstant } from '../records/fields.ts';
import { chainPlace, noticeReason } from './certificateData.ts';

const keyNamed = z.strictObject({
  subject: z.string().min(1),
  certificateSha256: sha256Hex,
  /** X.509, so that what the key signed can still be checked when its file is gone. */
  certificatePem: z.string().min(1),
});

/** The workshop signs with another key from now on: chained like a certificate, signed by the old key and by the new one. */
export const keyChangeData = z.strictObject({
  format: z.literal('slipwright.keyChange/1'),
  changedAtUtc: utcInstant,
  signatory: z.string().min(1),
  reason: noticeReason,
  before: keyNamed,
  after: keyNamed,
  ...chainPlace,
});
export type KeyChangeData = z.infer<typeof keyChangeData>;
