import { z } from 'zod';
import { sha256Hex, utcInstant } from '../records/fields.ts';
import { certificateNumber, chainPlace, noticeReason } from './certificateData.ts';

/** A certificate is withdrawn: signed and chained like a certificate. What was withdrawn stays where it is. */
export const withdrawalData = z.strictObject({
  format: z.literal('slipwright.withdrawal/1'),
  number: certificateNumber,
  /** Of the very files that no longer speak for the pump. */
  jsonSha256: sha256Hex,
  pdfSha256: sha256Hex,
  withdrawnAtUtc: utcInstant,
  signatory: z.string().min(1),
  reason: noticeReason,
  ...chainPlace,
});
export type WithdrawalData = z.infer<typeof withdrawalData>;
