import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** A power screw between two idlers, two starts each, nominal profile 5/3 : 1 : 1/3. */
export const threeScrewGeometry = z.strictObject({
  kind: z.literal('threeScrew'),
  powerDiameterM: measuredPositive,
  /** Outer diameter of the idlers: the 1 of the profile, root of the power screw and centre distance too. */
  idlerDiameterM: measuredPositive,
  /** Advance of one thread in a turn: nominally 10/3 of the idler's diameter. */
  leadM: measuredPositive,
});
export type ThreeScrewGeometry = z.infer<typeof threeScrewGeometry>;
