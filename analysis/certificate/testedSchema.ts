import { z } from 'zod';
import { CHANNEL_NAMES } from '../channels.ts';
import { calibration, holdLimits, tapping } from '../records/benchRecord.ts';
import { recordId, sha256Hex, utcInstant } from '../records/fields.ts';
import { oilRecord } from '../records/oilRecord.ts';
import { holdExclusion, runKind, runLabel, setUp, zeroCheck } from '../records/runRecord.ts';

export const certificateRun = z.strictObject({
  id: recordId,
  kind: runKind,
  label: runLabel,
  startedAtUtc: utcInstant,
  closedAtUtc: utcInstant,
  ending: z.enum(['completed', 'stopped']),
  operator: z.string(),
  isPractice: z.boolean(),
  programVersion: z.string(),
  analysisVersion: z.string(),
  bench: z.strictObject({ id: recordId, version: z.int().positive() }),
  lineCount: z.int().nonnegative(),
  readingCount: z.int().nonnegative(),
  byteLength: z.int().nonnegative(),
  sha256: z.strictObject({ run: sha256Hex, journal: sha256Hex, marks: sha256Hex }),
  mounting: z.int().positive().default(1),
  zeroCheck: zeroCheck.nullable().default(null),
  /** The strip sheet in force; null: none. */
  stripSheet: z.strictObject({ id: recordId, version: z.int().positive() }).nullable().default(null),
  /** What a person took out of the fit, or back in, and why. */
  exclusions: z.array(holdExclusion).default([]),
});
export type CertificateRun = z.infer<typeof certificateRun>;

const instrument = z.strictObject({
  channel: z.enum(CHANNEL_NAMES),
  instrument: z.string(),
  /** Unit of range and offset; the gain is relative [1]. */
  unit: z.string(),
  range: z.strictObject({ min: z.number(), max: z.number() }),
  calibration: calibration.nullable(),
  /** Where the transmitter sits; null: at the height of the pump's inlet, or no pressure. */
  tapping: tapping.nullable().default(null),
  lagS: z.number().nonnegative().default(0),
});

export const certificateBench = z.strictObject({
  id: recordId,
  version: z.int().positive(),
  name: z.string(),
  workshop: z.string(),
  instruments: z.array(instrument),
  holdLimits,
});
export type CertificateBench = z.infer<typeof certificateBench>;

export const conditions = z.strictObject({
  runId: recordId,
  oil: oilRecord,
  setUp,
  /** Lowest and highest of the holds; null where the run has none. */
  oilTemperatureK: z.strictObject({ lowest: z.number(), highest: z.number() }).nullable(),
});
export type CertificateConditions = z.infer<typeof conditions>;
