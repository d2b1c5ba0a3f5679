import { z } from 'zod';
import { measuredNonNegative, measuredPositive } from '../fields.ts';

/** Two involute spur gears in a close casing, measured apart. */
export const externalGearGeometry = z
  .strictObject({
    kind: z.literal('externalGear'),
    toothCount: z.strictObject({ driver: z.int().min(5), driven: z.int().min(5) }),
    moduleM: z.number().positive(),
    pressureAngleRad: z.number().min(0.2).max(0.6),
    /** Of the driver; of both gears where the driven one is not given. */
    tipDiameterM: measuredPositive,
    /** Of the driven gear; absent: one measurement stands for both of two equal gears. */
    drivenTipDiameterM: measuredPositive.optional(),
    runningCentreDistanceM: measuredPositive,
    faceWidthM: measuredPositive,
    /** Relief grooves and backlash move the swept volume by some per cent: both are asked for. */
    hasReliefGrooves: z.boolean(),
    backlashM: measuredNonNegative,
    tipClearanceM: measuredNonNegative,
    endFloatM: measuredNonNegative,
  })
  .superRefine((geometry, context) => {
    const { driver, driven } = geometry.toothCount;
    if (driver !== driven && geometry.drivenTipDiameterM === undefined) {
      context.addIssue({
        code: 'custom',
        path: ['drivenTipDiameterM'],
        message: `${driven} teeth against ${driver}: unequal gears need the tip diameter of the driven gear as well`,
      });
      return;
    }
    const runningPitchDiameterM = (teeth: number): number =>
      (2 * geometry.runningCentreDistanceM.value * teeth) / (driver + driven);
    for (const { key, tip, teeth } of [
      { key: 'tipDiameterM', tip: geometry.tipDiameterM, teeth: driver },
      { key: 'drivenTipDiameterM', tip: geometry.drivenTipDiameterM ?? geometry.tipDiameterM, teeth: driven },
    ]) {
      if (tip.value > runningPitchDiameterM(teeth)) continue;
      context.addIssue({
        code: 'custom',
        path: [geometry.drivenTipDiameterM === undefined ? 'tipDiameterM' : key, 'value'],
        message: `tip circle of ${tip.value} m is not larger than the running pitch circle of ${runningPitchDiameterM(teeth)} m: these gears cannot mesh`,
      });
    }
  });
export type ExternalGearGeometry = z.infer<typeof externalGearGeometry>;
