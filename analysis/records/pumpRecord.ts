import { z } from 'zod';
import { dutyRecord } from './dutyRecord.ts';
import { recordId } from './fields.ts';
import { statedGeometry } from './geometry/asStated.ts';
import { externalGearGeometry } from './geometry/externalGear.ts';

export const pumpRecord = z.strictObject({
  format: z.literal('slipwright.pump/1'),
  id: recordId,
  version: z.int().positive(),
  name: z.string().min(1),
  type: z.enum(['external gear', 'screw']),
  serialNumber: z.string().min(1),
  maker: z.string().min(1),
  owner: z.string().default(''),
  /** Rotation seen on the shaft end. */
  rotation: z.enum(['clockwise', 'anticlockwise']),
  speedRangeRevPerS: z.strictObject({ min: z.number().nonnegative(), max: z.number().positive() }),
  mayRunDry: z.boolean(),
  geometry: z.discriminatedUnion('kind', [externalGearGeometry, statedGeometry]),
  /** Null: nobody knows what the machine needs; outcomes are then 'measured'. */
  duty: dutyRecord.nullable(),
  remarks: z.string().default(''),
});
export type PumpRecord = z.infer<typeof pumpRecord>;
export type PumpGeometry = PumpRecord['geometry'];
