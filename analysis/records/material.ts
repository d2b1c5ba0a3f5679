import { z } from 'zod';

/** What a part is made of, as far as its expansion with heat goes. */
export const material = z.enum(['aluminium', 'cast iron', 'steel', 'bronze']);
export type Material = z.infer<typeof material>;

/** Materials of the parts that make the clearances; null: not known, which widens every clearance's uncertainty when hot. */
export const pumpMaterials = z.strictObject({
  body: material.nullable().default(null),
  /** Gears, rotors or screws. */
  gears: material.nullable().default(null),
  bushes: material.nullable().default(null),
});
export type PumpMaterials = z.infer<typeof pumpMaterials>;
