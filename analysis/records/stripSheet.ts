import { z } from 'zod';
import { calendarDate, measuredPositive, recordId, sha256Hex } from './fields.ts';
import { gapDimensions } from './gapDimensions.ts';

/** A limit and who set it; at least one of the two bounds is given. In the unit of what it limits. */
const stripLimit = z
  .strictObject({
    atLeast: z.number().nonnegative().nullable().default(null),
    atMost: z.number().nonnegative().nullable().default(null),
    origin: z.enum(['maker', 'drawing', 'house limit', 'common practice, no source']),
  })
  .refine(({ atLeast, atMost }) => atLeast !== null || atMost !== null, 'gives neither atLeast nor atMost')
  .refine(
    ({ atLeast, atMost }) => atLeast === null || atMost === null || atLeast <= atMost,
    'atLeast lies above atMost',
  );
export type StripLimit = z.infer<typeof stripLimit>;

const limited = { limit: stripLimit.nullable().default(null) };

/** What an instrument showed, with the standard uncertainty it was read with; the limit is for this very reading. */
const reading = {
  standardUncertainty: z.number().nonnegative(),
  instrument: z.string().min(1),
  ...limited,
  note: z.string().default(''),
};
const size = z.strictObject({ value: z.number().positive(), ...reading });
const gap = z.strictObject({ value: z.number().nonnegative(), ...reading });
export type StripMeasurement = z.infer<typeof gap>;

/** Which gear, rotor or screw: the driver is on the shaft that comes out. Pinion and vane rotor are drivers, rings are driven. */
const part = z.enum(['driver', 'driven']);

/** End float: from depths and the gasket that lifts the cover, or felt directly. The limit is for the float itself. */
const endFloat = z.discriminatedUnion('method', [
  z.strictObject({
    method: z.literal('gasketAndDepths'),
    /** From the body's joint face to the bottom of the gear chamber. */
    recessDepthM: size,
    gearWidthM: size,
    gasketMaterial: z.string().min(1),
    /** Before tightening; 0: metal to metal. */
    gasketThicknessM: gap,
    /** What tightening takes off it. */
    gasketCrushM: gap,
    ...limited,
  }),
  z.strictObject({ method: z.literal('direct'), endFloatM: gap, ...limited }),
]);

/** Radial clearance of the tips in their bore. The limit is for the radial clearance. */
const tipClearance = z.discriminatedUnion('method', [
  z.strictObject({ method: z.literal('diameters'), part, boreDiameterM: size, tipDiameterM: size, ...limited }),
  z.strictObject({ method: z.literal('direct'), part, clearanceM: gap, ...limited }),
]);

/** A shaft in its bush, or a ring in its body. The limit is for the diametral clearance. */
const shaftInBush = z.strictObject({
  part,
  where: z.string().min(1),
  boreDiameterM: size,
  shaftDiameterM: size,
  lengthM: z.number().positive(),
  /** Whether the far end of the bush drains to the suction side; a blind bush leaks nothing away. */
  isDrained: z.boolean(),
  ...limited,
});

const torque = z.strictObject({ value: z.number().nonnegative(), ...reading });

/** A fastener that comes loose wrecks a pump: every one is listed with what keeps it from turning. */
const fastener = z.strictObject({
  where: z.string().min(1),
  count: z.int().positive(),
  locking: z.enum(['split pin', 'tab washer', 'wire', 'spring washer', 'lock nut', 'thread lock', 'peened', 'none']),
  isLocked: z.boolean(),
  note: z.string().default(''),
});

/** What a pump looked like apart, and how it went back together. */
export const stripSheet = z
  .strictObject({
    format: z.literal('slipwright.strip/1'),
    id: recordId,
    version: z.int().positive(),
    pumpId: recordId,
    occasion: z.enum(['as found', 'as rebuilt']),
    measuredOn: calendarDate,
    measuredBy: z.string().min(1),
    /** Of the parts when they were measured; clearances at another temperature are counted from here. */
    partsTemperatureK: measuredPositive,
    endFloat: endFloat.nullable(),
    tipClearances: z.array(tipClearance),
    shaftsInBushes: z.array(shaftInBush),
    /** At the pitch circle; null: not measured. */
    backlashM: gap.nullable(),
    /** Deviation from flat of each face that seals. */
    faceFlatness: z.array(z.strictObject({ where: z.string().min(1), deviationM: gap })),
    /** Seat of a built-in relief valve: the mean gap left when it is shut; null: the pump has none. */
    reliefSeat: z
      .strictObject({ boreDiameterM: z.number().positive(), widthM: z.number().positive(), gapM: gap })
      .nullable(),
    nicks: z.array(z.strictObject({ where: z.string().min(1), what: z.string().min(1), isDressed: z.boolean() })),
    /** What was made or bought new, a line each. */
    partsRenewed: z.array(z.string().min(1)).default([]),
    /** By hand, bolted up; null: not felt. */
    turning: z
      .strictObject({
        freeTorqueNm: torque,
        tightSpots: z.array(
          z.strictObject({
            /** Shaft angle from the keyway upright, in the sense of rotation. */
            shaftAngleRad: z
              .number()
              .min(0)
              .lt(2 * Math.PI),
            torqueNm: torque,
          }),
        ),
      })
      .nullable(),
    witnessMarks: z.array(
      z.strictObject({
        where: z.string().min(1),
        what: z.string().min(1),
        photographSha256: sha256Hex.nullable().default(null),
      }),
    ),
    fasteners: z.array(fastener),
    cleaning: z.strictObject({ how: z.string().min(1), isSolventWashed: z.boolean(), isBlownDry: z.boolean() }),
    /** How it was wetted when it went together. */
    wetting: z.strictObject({
      how: z.enum(['bone dry', 'oiled', 'packed with grease']),
      /** Measured dose of oil or grease; null: not measured. */
      doseM3: z.number().positive().nullable(),
      turnsByHand: z.int().nonnegative().nullable(),
    }),
    /** Shape of the gaps; null: not measured, and no slip is predicted from this sheet. */
    gapDimensions: gapDimensions.nullable(),
    remarks: z.string().default(''),
  })
  .superRefine((sheet, context) => {
    for (const name of ['driver', 'driven']) {
      const indices = sheet.tipClearances.flatMap(({ part: of }, index) => (of === name ? [index] : []));
      const [, second] = indices;
      if (second !== undefined) {
        context.addIssue({ code: 'custom', path: ['tipClearances', second, 'part'], message: `${name} stands twice` });
      }
      const bushes = sheet.shaftsInBushes.flatMap(({ part: of }, index) => (of === name ? [index] : []));
      const third = bushes[2];
      if (third !== undefined && sheet.gapDimensions?.kind !== 'screw') {
        context.addIssue({
          code: 'custom',
          path: ['shaftsInBushes', third, 'part'],
          message: `a third bush of the ${name}: there is one at each of its two faces`,
        });
      }
    }
    if (sheet.wetting.how === 'bone dry' && sheet.wetting.doseM3 !== null) {
      context.addIssue({ code: 'custom', path: ['wetting', 'doseM3'], message: 'a bone dry pump has no dose of oil' });
    }
  });
export type StripSheet = z.infer<typeof stripSheet>;
export type ShaftInBush = StripSheet['shaftsInBushes'][number];
export type TipClearance = StripSheet['tipClearances'][number];
