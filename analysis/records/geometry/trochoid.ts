import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** An inner rotor with one tooth less than the outer, whose lobes are circular arcs; measured apart. */
export const trochoidGeometry = z.strictObject({
  kind: z.literal('trochoid'),
  innerToothCount: z.int().min(3),
  /** Circle through the tops of the outer rotor's lobes: the largest plug that passes between them. */
  lobeTopCircleDiameterM: measuredPositive,
  /** Radius of one lobe's arc, by radius gauge. */
  lobeRadiusM: measuredPositive,
  /** Between the axes; a quarter of the inner rotor's tip circle less its root circle. */
  eccentricityM: measuredPositive,
  widthM: measuredPositive,
});
export type TrochoidGeometry = z.infer<typeof trochoidGeometry>;
