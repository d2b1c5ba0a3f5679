import { z } from 'zod';

/** A channel of the practice bench by its name in the bench record. */
const practiceChannel = z.enum([
  'suctionPressure',
  'deliveryPressure',
  'flow',
  'speed',
  'oilTemperature',
  'meterTemperature',
  'caseTemperature',
  'torque',
  'barometer',
]);
export type PracticeChannel = z.infer<typeof practiceChannel>;

/** What can be wrong with one sensor; numbers in the channel's own unit. */
const sensorFault = z.discriminatedUnion('fault', [
  /** Its zero walks off from the start of the bench. */
  z.strictObject({ fault: z.literal('drift'), channel: practiceChannel, perHour: z.number() }),
  /** It repeats its last reading for ever from this bench time on. */
  z.strictObject({ fault: z.literal('stuck'), channel: practiceChannel, fromS: z.number().nonnegative() }),
  /** It shows nothing above this. */
  z.strictObject({ fault: z.literal('clipped'), channel: practiceChannel, at: z.number() }),
  /** A signed 16-bit counter of such steps: it stops at 32 767 of them. */
  z.strictObject({ fault: z.literal('saturated16Bit'), channel: practiceChannel, unitPerCount: z.number().positive() }),
  /** It sends another unit than its record says: the value times this. */
  z.strictObject({ fault: z.literal('factor'), channel: practiceChannel, factor: z.number() }),
  /** Every so many readings it shows this for one reading: a loose contact. */
  z.strictObject({
    fault: z.literal('wild'),
    channel: practiceChannel,
    everyReadings: z.int().min(2),
    shows: z.number(),
  }),
]);
export type SensorFault = z.infer<typeof sensorFault>;

/** A stretch of the suction pipe from the oil surface on; a level run rises by 0, a swan neck falls again. */
const pipeLeg = z.strictObject({ lengthM: z.number().positive(), riseM: z.number() });
export type PipeLeg = z.infer<typeof pipeLeg>;

/**
 * What can be planted in a practice bench, each for itself: faults, and features that the plain bench has not. Plain JSON.
 * What is absent is not there.
 */
export const practicePlant = z.strictObject({
  /** Share of the oil's volume that is air at atmospheric pressure; settles at rest and is churned in again. */
  freeAirShare: z.number().min(0).max(0.2).optional(),
  /** Beyond this speed the pump no longer fills. */
  fillingKneeRevPerS: z.number().positive().optional(),
  /** Relief valve of the pump, from delivery back to suction; gauge pressures. */
  relief: z
    .strictObject({
      crackingPa: z.number().positive(),
      /** Above cracking: where it passes the whole flow of 15 rev/s. */
      fullFlowOvershootPa: z.number().positive(),
      /** At or below cracking: where it shuts again. */
      reseatPa: z.number().positive(),
    })
    .optional(),
  sensors: z.array(sensorFault).readonly().optional(),
  /** The tubes of the two pressure transmitters are exchanged; the pressures, not the instruments. */
  swappedPressurePorts: z.boolean().optional(),
  /** The motor turns the wrong way; the speed channel does not see it. */
  isReversed: z.boolean().optional(),
  /** Oil films of a dry start: the gap constant begins at this factor of the pump's own and goes there exponentially. */
  films: z.strictObject({ startFactor: z.number().positive(), timeConstantS: z.number().positive() }).optional(),
  carryOverShare: z.number().min(0).max(0.5).optional(),
  /** C_s in G = C_s (p_atm² − p²): a shaft end that draws air. */
  shaftLeakM3PerSPerPa: z.number().nonnegative().optional(),
  hasFootValve: z.boolean().optional(),
  /** The pipe above the oil surface, in place of a riser by the lift and a level rest. */
  pipeLegs: z.array(pipeLeg).min(1).readonly().optional(),
  /** Flow that comes and goes before oil comes to stay. */
  foam: z.strictObject({ burstCount: z.int().positive(), periodS: z.number().positive() }).optional(),
  /** A hole in the suction pipe, Cd A. */
  pipeLeakM2: z.number().positive().optional(),
  /** Air in what the foot of the pipe draws, by volume at atmospheric pressure. */
  strainerAirShare: z.number().min(0).max(0.9).optional(),
  /** Gap that the pump's relief valve leaves open, Cd A. */
  reliefNotSeatingM2: z.number().positive().optional(),
  /** The shaft turns, the gears do not. */
  isShaftNotDriven: z.boolean().optional(),
  /** The delivery side is shut in with this much air. */
  unventedDeliveryM3: z.number().positive().optional(),
  /** Nothing passes the foot of the pipe. */
  isPipeBlocked: z.boolean().optional(),
});
export type PracticePlant = z.infer<typeof practicePlant>;
