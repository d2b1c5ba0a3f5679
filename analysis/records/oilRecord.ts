import { z } from 'zod';

/** A measured point; ASTM D341 ends at 0.21 mm²/s, and below it the law has no value. */
const viscosityPoint = z.strictObject({
  temperatureK: z.number().positive(),
  kinematicViscosityM2PerS: z.number().min(0.21e-6, 'expected 0.21 mm²/s or more, where ASTM D341 holds'),
});

/**
 * The oil of a run: viscosity at two temperatures and density at 15 °C, so that it still means something when the
 * brand is gone.
 */
export const oilRecord = z
  .strictObject({
    name: z.string().min(1),
    /** Measured on a sample, or taken from the grade on the can (then ±10 % as a rectangular error, ISO 3448). */
    viscosityBasis: z.enum(['measured', 'grade']),
    lower: viscosityPoint,
    upper: viscosityPoint,
    /** Relative standard uncertainty of the viscosity, common to all temperatures [1]. */
    viscosityRelativeStandardUncertainty: z.number().nonnegative(),
    densityAt15CKgPerM3: z.number().min(700).max(1200),
    densityRelativeStandardUncertainty: z.number().nonnegative(),
  })
  .refine((oil) => oil.upper.temperatureK > oil.lower.temperatureK, {
    path: ['upper', 'temperatureK'],
    message: 'must be the higher of the two temperatures',
  })
  .refine((oil) => oil.upper.kinematicViscosityM2PerS < oil.lower.kinematicViscosityM2PerS, {
    path: ['upper', 'kinematicViscosityM2PerS'],
    message: 'an oil is thinner when hotter: must be below the viscosity at the lower temperature',
  });
export type OilRecord = z.infer<typeof oilRecord>;
