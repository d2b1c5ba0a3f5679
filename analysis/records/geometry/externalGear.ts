import { z } from 'zod';
import { measuredNonNegative, measuredPositive } from '../fields.ts';

/** Two involute spur gears in a close casing, measured apart. */
export const externalGearGeometry = z
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
