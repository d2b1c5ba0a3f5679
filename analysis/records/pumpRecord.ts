import { z } from 'zod';
import { dutyRecord } from './dutyRecord.ts';
import { measuredNonNegative, measuredPositive, recordId } from './fields.ts';

/** Two involute spur gears in a close casing, measured apart. */
const externalGearGeometry = z
  .strictObject({
    kind: z.literal('externalGear'),
    toothCount: z.strictObject({ driver: z.int().min(5), driven: z.int().min(5) }),
    moduleM: z.number().positive(),
    pressureAngleRad: z.number().min(0.2).max(0.6),
    tipDiameterM: measuredPositive,
    runningCentreDistanceM: measuredPositive,
    faceWidthM: measuredPositive,
    /** Relief grooves and backlash move the swept volume by some per cent: both are asked for. */
    hasReliefGrooves: z.boolean(),
    backlashM: measuredNonNegative,
    tipClearanceM: measuredNonNegative,
    endFloatM: measuredNonNegative,
  })
  .superRefine((geometry, context) => {
    const runningPitchDiameterM = geometry.runningCentreDistanceM.value;
    if (geometry.tipDiameterM.value <= runningPitchDiameterM) {
      context.addIssue({
        code: 'custom',
        path: ['tipDiameterM', 'value'],
        message: `tip circle of ${geometry.tipDiameterM.value} m is not larger than the running pitch circle of ${runningPitchDiameterM} m: these gears cannot mesh`,
      });
    }
    if (geometry.toothCount.driver !== geometry.toothCount.driven) {
      context.addIssue({
        code: 'custom',
        path: ['toothCount', 'driven'],
        message: `${geometry.toothCount.driven} teeth against ${geometry.toothCount.driver}: only equal gears are computed; give the swept volume 'as stated'`,
      });
    }
  });
export type ExternalGearGeometry = z.infer<typeof externalGearGeometry>;

/** Swept volume from papers or a plate, where the pump's own geometry is not computed. */
const statedGeometry = z.strictObject({
  kind: z.literal('asStated'),
  sweptVolumeM3PerRev: measuredPositive,
  statedBy: z.string().min(1),
});

export const pumpRecord = z.strictObject({
  format: z.literal('slipwright.pump/1'),
  id: recordId,
  version: z.int().positive(),
  name: z.string().min(1),
  type: z.enum(['external gear', 'screw']),
  serialNumber: z.string().min(1),
  maker: z.string().min(1),
  owner: z.string().default(''),
  /** Rotation seen on the shaft end. */
  rotation: z.enum(['clockwise', 'anticlockwise']),
  speedRangeRevPerS: z.strictObject({ min: z.number().nonnegative(), max: z.number().positive() }),
  mayRunDry: z.boolean(),
  geometry: z.discriminatedUnion('kind', [externalGearGeometry, statedGeometry]),
  /** Null: nobody knows what the machine needs; outcomes are then 'measured'. */
  duty: dutyRecord.nullable(),
  remarks: z.string().default(''),
});
export type PumpRecord = z.infer<typeof pumpRecord>;
export type PumpGeometry = PumpRecord['geometry'];
