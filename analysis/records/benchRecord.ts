import { z } from 'zod';
import { fitCurve } from '../calibration/fitCurve.ts';
import { CHANNEL_NAMES, CHANNELS, isChannelName } from '../channels.ts';
import { findUnit } from '../units.ts';
import { calendarDate, recordId } from './fields.ts';

/** How a line is laid out. The defaults are the bench sentence `$seq,device_us,v1,v2,...*HHHH`. */
const wire = z.strictObject({
  baudRate: z.int().positive(),
  delimiter: z.enum(['\r\n', '\n', '\r']).default('\r\n'),
  prefix: z.string().max(8).default('$'),
  /** 'crc16': CRC-16/MODBUS, four digits; 'xor': two digits as in NMEA 0183; both over what stands between prefix and '*'. */
  checksum: z.enum(['crc16', 'xor', 'none']).default('crc16'),
  /** Width of the sequence counter, which wraps; null: the line has none. */
  sequenceBits: z.int().min(4).max(32).nullable().default(32),
  /** Width of the device clock in microseconds, which wraps; null: the line has none. */
  deviceClockBits: z.int().min(16).max(53).nullable().default(32),
  maxLineBytes: z.int().min(16).max(4096).default(256),
});

const errorStatement = {
  standardUncertainty: z.number().nonnegative(),
  shape: z.enum(['normal', 'rectangular']),
};

/** Points of a calibration: what the instrument gave against what the reference stood at; a series up and down may repeat them. */
const calibrationCurve = z
  .strictObject({
    /** 1: a straight line. */
    degree: z.int().min(1).max(3),
    /** Raw values as they come over the line; references in the channel's own unit. */
    points: z.array(z.strictObject({ raw: z.number(), reference: z.number() })).min(3),
    /** Of the reference at each point, in the channel's own unit; common to all points. */
    referenceStandardUncertainty: z.number().nonnegative(),
  })
  .superRefine((curve, context) => {
    const fit = fitCurve(curve);
    if (!fit.ok) context.addIssue({ code: 'custom', path: ['points'], message: fit.reason.text });
  });
export type CalibrationCurve = z.infer<typeof calibrationCurve>;

const NO_ERROR = { standardUncertainty: 0, shape: 'normal' } as const;

/** Limits that an instrument keeps anywhere in its range, as its maker or a standard states them: ± the sum of the two. */
const accuracyClass = z.strictObject({
  /** Of max − min of the range [%]. */
  percentOfSpan: z.number().nonnegative(),
  /** Of the reading in the channel's own unit [%]. */
  percentOfReading: z.number().nonnegative().default(0),
});
export type AccuracyClass = z.infer<typeof accuracyClass>;

const calibrationStatement = z.strictObject({
  reference: z.string().min(1),
  calibratedOn: calendarDate,
  dueOn: calendarDate,
  /** Relative to the reading in the channel's own unit [1]. Gain and offset may be left out where a class is stated. */
  gain: z.strictObject(errorStatement).optional(),
  /** In the channel's own unit. */
  offset: z.strictObject(errorStatement).optional(),
  /** Null: none is stated. What it says comes on top of the errors stated one by one. */
  accuracyClass: accuracyClass.nullable().default(null),
  /** Largest departure from the line over the range, zero at its ends; in the channel's own unit. */
  linearity: z.strictObject(errorStatement).default(NO_ERROR),
  /** Standard uncertainty gained since the day of calibration, per year: gain relative [1], offset in the channel's own unit. */
  driftPerYear: z
    .strictObject({
      gain: z.number().nonnegative(),
      offset: z.number().nonnegative(),
      shape: errorStatement.shape.default('normal'),
    })
    .default({ gain: 0, offset: 0, shape: 'normal' }),
  /** Raw values become the channel's unit by the curve through these points; null: by `scale`. */
  curve: calibrationCurve.nullable().default(null),
});

export const calibration = calibrationStatement.transform((entry, context) => {
  const { gain, offset } = entry;
  if (entry.accuracyClass === null) {
    for (const [key, error] of Object.entries({ gain, offset })) {
      if (error !== undefined) continue;
      context.addIssue({ code: 'custom', path: [key], message: 'needed where no accuracy class is stated' });
    }
  }
  return { ...entry, gain: gain ?? NO_ERROR, offset: offset ?? NO_ERROR };
});
export type Calibration = z.infer<typeof calibration>;

/** Where a pressure transmitter sits and what its tube is filled with. */
export const tapping = z.strictObject({
  /** Height of the transmitter over the middle of the pump's inlet; negative below. */
  heightOverInletM: z.strictObject({ value: z.number(), standardUncertainty: z.number().nonnegative() }),
  tubeFilledWith: z.enum(['oil', 'air']),
});

/** K-factor of a flow meter against the viscosity of the oil, over the K-factor that its signal was scaled with. */
const kFactor = z.strictObject({
  /** Rising viscosity; between the points by straight lines in the logarithm of viscosity. */
  table: z
    .array(z.strictObject({ kinematicViscosityM2PerS: z.number().positive(), ratio: z.number().positive() }))
    .min(2)
    .refine(
      (table) =>
        table.every(
          (point, index) => point.kinematicViscosityM2PerS > (table[index - 1]?.kinematicViscosityM2PerS ?? 0),
        ),
      'expected viscosities that rise from point to point',
    ),
  relativeStandardUncertainty: z.number().nonnegative(),
});

const channel = z
  .strictObject({
    channel: z.string(),
    /** Which value of the line, counted from 1 behind counter and clock. */
    position: z.int().positive(),
    /** Unit of the value once scaled: 'bar(g)', 'l/min', … */
    unit: z.string(),
    /** Raw value to unit: unit value = gain × raw + offset. */
    scale: z.strictObject({ gain: z.number(), offset: z.number() }).default({ gain: 1, offset: 0 }),
    /** Readings outside are marked and never averaged; in the channel's unit. */
    range: z.strictObject({ min: z.number(), max: z.number() }),
    resolution: z.number().nonnegative().default(0),
    lagS: z.number().nonnegative().default(0),
    instrument: z.string().min(1),
    /** 'currentLoop': raw values are milliamperes, and NAMUR NE 43 says which of them are a fault. */
    signal: z.enum(['engineering', 'currentLoop']).default('engineering'),
    /** Pressures: null where the transmitter sits at the height of the pump's inlet. */
    tapping: tapping.nullable().default(null),
    /** Flow: null where the meter's factor does not depend on viscosity. */
    kFactor: kFactor.nullable().default(null),
    /** Null: nobody vouches for this channel; outcomes are then 'measured', never 'pass'. */
    calibration: calibration.nullable(),
  })
  .transform((entry, context) => {
    if (!isChannelName(entry.channel)) {
      context.addIssue({
        code: 'custom',
        path: ['channel'],
        message: `no channel is called ${JSON.stringify(entry.channel)}; known are ${CHANNEL_NAMES.join(', ')}`,
      });
      return z.NEVER;
    }
    const unit = findUnit(entry.unit, CHANNELS[entry.channel].quantity);
    if (!unit.ok) {
      context.addIssue({
        code: 'custom',
        path: ['unit'],
        message: `${JSON.stringify(entry.unit)} is no unit of ${CHANNELS[entry.channel].quantity}`,
      });
      return z.NEVER;
    }
    const { quantity } = CHANNELS[entry.channel];
    const refuse = (path: keyof typeof entry, message: string): void => {
      context.addIssue({ code: 'custom', path: [path], message });
    };
    if (!(entry.range.min < entry.range.max)) refuse('range', 'expected min below max');
    if (entry.tapping !== null && (quantity !== 'pressure' || entry.channel === 'barometer')) {
      refuse('tapping', `${CHANNELS[entry.channel].label} has no pressure tapping`);
    }
    if (entry.kFactor !== null && quantity !== 'flow') {
      refuse('kFactor', `${CHANNELS[entry.channel].label} is measured by no flow meter`);
    }
    if (entry.calibration?.curve && (entry.scale.gain !== 1 || entry.scale.offset !== 0)) {
      refuse('scale', 'a calibration curve takes raw values: leave the scale out');
    }
    return { ...entry, channel: entry.channel };
  });
export type BenchChannel = z.infer<typeof channel>;

/** How still a hold must be; half the span allowed within it. */
export const holdLimits = z.strictObject({
  minDurationS: z.number().positive().default(4),
  /** Relative to the mean [1]. */
  speed: z.number().positive().default(0.002),
  flow: z.number().positive().default(0.015),
  /** Relative at or above 2 bar gauge, absolute below it. */
  pressure: z.number().positive().default(0.015),
  pressureBelow2BarPa: z.number().positive().default(3000),
  oilTemperatureK: z.number().positive().default(0.5),
});
export type HoldLimits = z.infer<typeof holdLimits>;

export const benchRecord = z
  .strictObject({
    format: z.literal('slipwright.bench/1'),
    id: recordId,
    version: z.int().positive(),
    name: z.string().min(1),
    workshop: z.string().min(1),
    wire,
    channels: z.array(channel).min(1),
    holdLimits: holdLimits.prefault({}),
    remarks: z.string().default(''),
  })
  .superRefine((bench, context) => {
    for (const key of ['channel', 'position'] as const) {
      const seen = new Set<string | number>();
      for (const [index, entry] of bench.channels.entries()) {
        if (seen.has(entry[key])) {
          context.addIssue({ code: 'custom', path: ['channels', index, key], message: `${entry[key]} stands twice` });
        }
        seen.add(entry[key]);
      }
    }
  });
export type BenchRecord = z.infer<typeof benchRecord>;
