import { z } from 'zod';
import { benchRecord } from './benchRecord.ts';
import { measuredNonNegative, measuredPositive, recordId, sha256Hex, utcInstant, wetnessClass } from './fields.ts';
import { oilRecord } from './oilRecord.ts';
import { pumpRecord } from './pumpRecord.ts';

export const runKind = z.enum(['delivery', 'dryLift']);
export type RunKind = z.infer<typeof runKind>;

export const runLabel = z.enum(['as found', 'as rebuilt', 'run in', 'after hours in service']);

/** Suction side and surroundings of a run. Heights and volumes count for dry-lift runs. */
export const setUp = z.strictObject({
  barometerPa: measuredPositive,
  /** Height of the highest point the oil must pass over the oil surface. */
  staticLiftM: measuredNonNegative,
  suctionPipeBoreM: z.number().positive(),
  suctionPipeLengthM: z.number().positive(),
  /** Gas volume between the end of the pipe and the gears. */
  deadVolumeM3: z.number().nonnegative(),
  /** Between the pump's outlet and the flow meter: oil that has passed the outlet must fill it before the meter sees it. */
  deliveryLineVolumeM3: measuredNonNegative,
  wetness: wetnessClass,
});
export type SetUp = z.infer<typeof setUp>;

/** Where the bytes of a run come from. */
const runSource = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('port'), path: z.string().min(1) }),
  z.strictObject({ kind: z.literal('import'), fileName: z.string().min(1), sha256: sha256Hex }),
]);

/** What was true before the first byte: whole, with the very pump and bench record in force. */
export const runRecord = z.strictObject({
  format: z.literal('slipwright.run/1'),
  id: recordId,
  kind: runKind,
  label: runLabel,
  startedAtUtc: utcInstant,
  /** Reading of the recorder's monotonic clock when the run began; the journal's stamps run on the same clock. */
  startedMonotonicUs: z.int().nonnegative(),
  source: runSource,
  pump: pumpRecord,
  bench: benchRecord,
  oil: oilRecord,
  setUp,
  operator: z.string().min(1),
  programVersion: z.string().min(1),
});
export type RunRecord = z.infer<typeof runRecord>;

/** A line of marks.jsonl: what the operator did and when. */
export const mark = z.strictObject({
  monotonicUs: z.int().nonnegative(),
  atUtc: utcInstant,
  text: z.string().min(1).max(500),
});
export type Mark = z.infer<typeof mark>;

/** How a run ended; its presence seals the run. */
export const runClosing = z.strictObject({
  format: z.literal('slipwright.closing/1'),
  runId: recordId,
  ending: z.enum(['completed', 'stopped', 'failed', 'recovered']),
  reason: z.string().min(1),
  closedAtUtc: utcInstant,
  lineCount: z.int().nonnegative(),
  byteLength: z.int().nonnegative(),
  sha256: z.strictObject({ run: sha256Hex, journal: sha256Hex, marks: sha256Hex }),
});
export type RunClosing = z.infer<typeof runClosing>;
