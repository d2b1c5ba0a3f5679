import { z } from 'zod';
import { stripSheet } from '../records/stripSheet.ts';
import { statedValue } from './statedValue.ts';

/** A strip sheet that runs carried, whole, with the clearances that follow from it. */
export const asBuilt = z.strictObject({
  stripSheet,
  clearances: z.array(
    z.strictObject({
      name: z.string(),
      clearanceM: statedValue,
      /** In words: within the limit, or not; 'no limit known'. */
      plainly: z.string(),
    }),
  ),
});
export type CertificateAsBuilt = z.infer<typeof asBuilt>;
