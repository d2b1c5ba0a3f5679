import { z } from 'zod';
import { sha256Hex } from './fields.ts';
import { pumpMaterials } from './material.ts';

/** How one end of a shaft keeps oil in and air out; an end without a seal leaks at atmospheric pressure. */
const shaftEnd = z.strictObject({
  /** 'driver, coupling end', … */
  where: z.string().min(1),
  sealedBy: z.enum(['lip seal', 'stuffing box', 'face seal', 'oil groove', 'blind cover', 'none', 'not known']),
  note: z.string().default(''),
});

/** A picture in the archive's attachments. */
const photograph = z.strictObject({ sha256: sha256Hex, caption: z.string().min(1) });

/** What a pump record carries besides geometry and duty. Empty or null: not recorded, which claims nothing. */
export const pumpParticulars = {
  shaftEnds: z.array(shaftEnd).default([]),
  /** Differential pressure at which the pump's relief valve opens; null: none, or not known. */
  reliefValveSettingPa: z.number().positive().nullable().default(null),
  materials: pumpMaterials.prefault({}),
  /** Stamped, cast or painted on it, word for word. */
  markings: z.array(z.string().min(1)).default([]),
  photographs: z.array(photograph).default([]),
};
