import { z } from 'zod';

/** The pumps that the practice bench can hold. */
export const pumpKind = z.enum(['externalGear', 'screw', 'internalGear']);
export type PumpKind = z.infer<typeof pumpKind>;
