import { z } from 'zod';
import { measuredNonNegative, measuredPositive } from './fields.ts';

/**
 * Shape of the gaps of a pump, as measured apart: breadths, lengths and radii. Clearances themselves, which count with
 * their cube, stand in the strip sheet; of the shapes only those that are hard to measure carry an uncertainty.
 */

const length = z.number().positive();
const teeth = z.int().min(2);
/** Angle of the casing that seals from suction to delivery; half a turn is no rarity, more than a turn cannot be. */
const arc = z.strictObject({
  value: z
    .number()
    .positive()
    .lt(2 * Math.PI),
  standardUncertainty: z.number().nonnegative(),
});

const externalGear = z.strictObject({
  kind: z.literal('externalGear'),
  toothCount: z.strictObject({ driver: teeth, driven: teeth }),
  tipDiameterM: z.strictObject({ driver: length, driven: length }),
  rootDiameterM: z.strictObject({ driver: length, driven: length }),
  faceWidthM: length,
  /** Along the circumference, of one tooth. */
  tipLandM: measuredPositive,
  sealingArcRad: arc,
});

const internalGear = z.strictObject({
  kind: z.literal('internalGear'),
  toothCount: z.strictObject({ driver: teeth, driven: teeth }),
  /** Pinion: over its tips; ring: across its tips, inside. */
  tipDiameterM: z.strictObject({ driver: length, driven: length }),
  rootDiameterM: z.strictObject({ driver: length, driven: length }),
  ringOuterDiameterM: length,
  faceWidthM: length,
  tipLandM: measuredPositive,
  /** Of the crescent, seen from the pinion's and from the ring's centre. */
  crescentArcRad: z.strictObject({ driver: arc, driven: arc }),
  /** From the delivery port to the suction port around the outside of the ring, each of two ways. */
  ringSealLengthM: measuredPositive,
});

/** Two or three screws in a close bore; the driver is the power rotor. */
const screw = z.strictObject({
  kind: z.literal('screw'),
  drivenCount: z.int().min(1).max(4),
  /** Threads on a screw; a lead holds so many crests one behind the other. */
  startCount: z.int().min(1).max(6),
  outerDiameterM: z.strictObject({ driver: length, driven: length }),
  rootDiameterM: z.strictObject({ driver: length, driven: length }),
  leadM: length,
  threadLengthM: length,
  /** Of a crest, along the shaft. */
  landWidthM: measuredPositive,
  /** Angle over which a screw's crest runs in its bore, outside the mesh. */
  boreArcRad: z.strictObject({ driver: arc, driven: arc }),
  /** Crest of one screw over the root of the other. */
  rootClearanceM: measuredNonNegative,
  /** Between the flanks of two screws in mesh. */
  flankClearanceM: measuredNonNegative,
  /** Way of the oil between two flanks. */
  flankLengthM: measuredPositive,
});

const vane = z.strictObject({
  kind: z.literal('vane'),
  vaneCount: teeth,
  rotorDiameterM: length,
  /** Largest and smallest radius of the ring seen from the shaft. */
  ringRadiusM: z.strictObject({ largest: length, smallest: length }),
  /** Single ring: 1 pumping stroke a turn; balanced ring: 2. */
  strokesPerTurn: z.union([z.literal(1), z.literal(2)]),
  faceWidthM: length,
  /** Of a vane's tip where it seals. */
  tipLandM: measuredPositive,
  sealingArcRad: arc,
  /** Rotor to ring where they come closest; counts where no vane stands. */
  rotorClearanceM: measuredNonNegative,
});

export const gapDimensions = z
  .discriminatedUnion('kind', [externalGear, internalGear, screw, vane])
  .superRefine((shape, context) => {
    if (shape.kind === 'vane') {
      const { largest, smallest } = shape.ringRadiusM;
      if (smallest <= shape.rotorDiameterM / 2) {
        context.addIssue({
          code: 'custom',
          path: ['rotorDiameterM'],
          message: `a rotor of ${shape.rotorDiameterM} m does not turn in a ring of radius ${smallest} m`,
        });
      }
      if (largest <= smallest) {
        context.addIssue({
          code: 'custom',
          path: ['ringRadiusM', 'largest'],
          message: `${largest} m is not above ${smallest} m: this ring pumps nothing`,
        });
      }
      return;
    }
    const outer = shape.kind === 'screw' ? shape.outerDiameterM : shape.tipDiameterM;
    for (const part of ['driver', 'driven'] as const) {
      // A ring gear's teeth point inwards: its root lies outside its tips.
      const isInside = shape.kind === 'internalGear' && part === 'driven';
      const isUpright = isInside ? outer[part] < shape.rootDiameterM[part] : outer[part] > shape.rootDiameterM[part];
      if (!isUpright) {
        context.addIssue({
          code: 'custom',
          path: ['rootDiameterM', part],
          message: `a root of ${shape.rootDiameterM[part]} m does not go with tips of ${outer[part]} m`,
        });
      }
    }
  });
export type GapDimensions = z.infer<typeof gapDimensions>;
export type ExternalGearShape = z.infer<typeof externalGear>;
export type InternalGearShape = z.infer<typeof internalGear>;
export type ScrewShape = z.infer<typeof screw>;
export type VaneShape = z.infer<typeof vane>;
