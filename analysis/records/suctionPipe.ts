import { z } from 'zod';
import { measuredNonNegative, measuredPositive } from './fields.ts';

/** A piece of pipe between oil and pump; pieces in the order in which the oil passes them. */
const pipePiece = z.strictObject({
  boreM: measuredPositive,
  lengthM: measuredPositive,
  /** From its beginning to its end; negative where it falls. At most its length. */
  riseM: z.number(),
  /** Sum of the loss coefficients of its fittings, each of v²/2 in this bore [1]. */
  fittingLossCoefficient: z.number().nonnegative().default(0),
});

/** The whole suction side, from below the oil surface to the pump's flange. */
export const suctionPipe = z
  .strictObject({
    /** Full of oil at rest: below the oil surface, strainer and foot valve on it. */
    submergedLengthM: z.number().nonnegative(),
    pieces: z.array(pipePiece).min(1),
    /** Of strainer and foot valve together, of v²/2 in the first bore [1]. */
    strainerLossCoefficient: z.number().nonnegative().default(0),
    hasFootValve: z.boolean().default(false),
  })
  .superRefine(({ pieces }, context) => {
    for (const [index, { riseM, lengthM }] of pieces.entries()) {
      if (Math.abs(riseM) > lengthM.value) {
        context.addIssue({
          code: 'custom',
          path: ['pieces', index, 'riseM'],
          message: `${riseM} m is more than the piece is long, ${lengthM.value} m`,
        });
      }
    }
  });

/** What the pump will stand in: for the prediction of its priming in the machine. */
export const machineSuction = z.strictObject({
  pipe: suctionPipe,
  deadVolumeM3: measuredNonNegative,
  barometerPa: measuredPositive,
  crankingSpeedRevPerS: z.number().positive(),
  oilTemperatureK: z.number().positive(),
  /** Absolute pressure at the inlet that the pump shall not be asked to draw below; null: nobody set one. */
  leastInletPressurePa: z.number().positive().nullable().default(null),
});
export type MachineSuction = z.infer<typeof machineSuction>;
