import { z } from 'zod';
import { CHANNEL_NAMES } from '../../analysis/channels.ts';
import type { DecimatedReadings } from '../../analysis/decimate.ts';
import { sha256Hex } from '../../analysis/records/fields.ts';

/** What is drawn of a sealed run, thinned out, and how its times stand to the recorder's clock. */
export type DrawnRun = {
  readonly readings: DecimatedReadings;
  /** When the first reading arrived; null: it came from a file. */
  readonly firstArrivalUs: number | null;
  readonly speedUp: number;
};

/** As it is kept beside the run: a cache, good for the journal and the decoder that it was made with. */
export const keptDrawing = z.strictObject({
  decoderVersion: z.string(),
  journalSha256: sha256Hex,
  drawn: z.strictObject({
    readings: z.strictObject({
      elapsedS: z.array(z.number()),
      channels: z.partialRecord(z.enum(CHANNEL_NAMES), z.array(z.number().nullable())),
    }),
    firstArrivalUs: z.number().nullable(),
    speedUp: z.number(),
  }),
});
export type KeptDrawing = z.infer<typeof keptDrawing>;
