import { z } from 'zod';
import { measuredNonNegative, measuredPositive } from '../fields.ts';

/** An involute pinion that drives a ring, a crescent between them, measured apart. */
export const internalGearGeometry = z
  .strictObject({
    kind: z.literal('internalGear'),
    toothCount: z.strictObject({ pinion: z.int().min(5), ring: z.int().min(6) }),
    moduleM: z.number().positive(),
    pressureAngleRad: z.number().min(0.2).max(0.6),
    pinionTipDiameterM: measuredPositive,
    /** Bore through the tips of the ring's teeth. */
    ringTipDiameterM: measuredPositive,
    runningCentreDistanceM: measuredPositive,
    faceWidthM: measuredPositive,
    hasReliefGrooves: z.boolean(),
    backlashM: measuredNonNegative,
  })
  .superRefine(({ toothCount, pinionTipDiameterM, ringTipDiameterM }, context) => {
    if (toothCount.ring <= toothCount.pinion) {
      context.addIssue({
        code: 'custom',
        path: ['toothCount', 'ring'],
        message: `${toothCount.ring} teeth of the ring are not more than the ${toothCount.pinion} of the pinion`,
      });
    }
    if (ringTipDiameterM.value <= pinionTipDiameterM.value) {
      context.addIssue({
        code: 'custom',
        path: ['ringTipDiameterM', 'value'],
        message: `the bore of ${ringTipDiameterM.value} m through the ring is not larger than the pinion of ${pinionTipDiameterM.value} m: it cannot turn inside`,
      });
    }
  });
export type InternalGearGeometry = z.infer<typeof internalGearGeometry>;
