import { z } from 'zod';
import { benchRecord } from './benchRecord.ts';
import { measuredNonNegative, measuredPositive, recordId, sha256Hex, utcInstant, wetnessClass } from './fields.ts';
import { oilRecord } from './oilRecord.ts';
import { pumpRecord } from './pumpRecord.ts';
import { stripSheet } from './stripSheet.ts';
import { suctionPipe } from './suctionPipe.ts';

/**
 * 'delivery': speeds and pressures stepped through. 'dryLift': a dry pump started at a known lift. 'blanked': a dry pump
 * started against a closed suction. 'suction': flow against inlet vacuum at one speed. 'relief': pressure up and down
 * through the opening of the relief valve at one speed.
 */
export const runKind = z.enum(['delivery', 'dryLift', 'blanked', 'suction', 'relief']);
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
  /** The rite behind the class; null where a figure was not taken. */
  wetting: z
    .strictObject({
      doseM3: z.number().positive().nullable(),
      turnsByHand: z.int().nonnegative().nullable(),
      standingTimeS: z.number().nonnegative().nullable(),
    })
    .nullable()
    .default(null),
  /** Piece by piece; null: one straight pipe of the bore and length above, risen by the static lift. */
  suctionPipe: suctionPipe.nullable().default(null),
  /** Standard uncertainties of bore, length and dead volume above; null: assumed, and said so. */
  suctionSideStandardUncertainty: z
    .strictObject({
      boreM: z.number().nonnegative(),
      lengthM: z.number().nonnegative(),
      deadVolumeM3: z.number().nonnegative(),
    })
    .nullable()
    .default(null),
  /** How the shaft's free ends are closed; an open one may leak air at the barometer's pressure. */
  shaftEnds: z.enum(['sealed', 'plugged', 'open']).default('sealed'),
  /** Whether air can leave the delivery side while the pump is dry. */
  isDeliveryVented: z.boolean().default(true),
  /**
   * The flange valve is shut under suction and the motor stopped at once, the pressure tapping on the pipe's side: what the
   * record shows after that is the pipe by itself.
   */
  endsWithPipeHold: z.boolean().default(false),
  /** Height of oil seen in a clear riser over the oil surface, by tape measure, at its highest; null: no riser. */
  riserHeightM: measuredNonNegative.nullable().default(null),
});
export type SetUp = z.infer<typeof setUp>;

/** What a channel said while everything stood still and the valve was open, against what it should have said. */
export const zeroCheck = z.strictObject({
  takenAtUtc: utcInstant,
  channels: z.array(
    z.strictObject({
      channel: z.string(),
      /** Indicated less true, in the channel's own unit. */
      offset: z.number(),
      standardUncertainty: z.number().nonnegative(),
      /** Taken off every reading of the run. */
      isApplied: z.boolean(),
    }),
  ),
});
export type ZeroCheck = z.infer<typeof zeroCheck>;

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
  /** Null: none was taken. */
  zeroCheck: zeroCheck.nullable().default(null),
  /** The strip sheet in force, from which slip is predicted; null: none. */
  stripSheet: stripSheet.nullable().default(null),
  /** Counts how often the pump was taken off the bench and mounted again: runs of different mountings show reproducibility. */
  mounting: z.int().positive().default(1),
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

/**
 * A line of exclusions.jsonl: a person takes a stretch of a delivery run out of the fit, or back in, with the reason. Added
 * after sealing, never rewritten; the last line that covers a hold counts.
 */
export const holdExclusion = z.strictObject({
  atUtc: utcInstant,
  person: z.string().min(1),
  fromS: z.number().nonnegative(),
  toS: z.number().positive(),
  isExcluded: z.boolean(),
  reason: z.string().min(1).max(500),
});
export type HoldExclusion = z.infer<typeof holdExclusion>;

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
