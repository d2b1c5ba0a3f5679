import { z } from 'zod';
import { practicePlant } from './plant.ts';
import { primingTruth } from './primingWatch.ts';
import { practiceScenario, pumpTruth } from './pumpTruth.ts';

/** What the practice bench was built with and what really happened on it: for tests and for the curious. Plain JSON. */
export const practiceTruth = z.strictObject({
  scenario: practiceScenario,
  /** From the nominal geometry. */
  sweptVolumeM3PerRev: z.number(),
  /** At the present oil temperature, like the slip constants. */
  derivedCapacityM3PerRev: z.number(),
  laminarSlipM3: z.number(),
  orificeSlipM2: z.number(),
  oilTemperatureK: z.number(),
  /** The pump's numbers at the reference temperature, for `trueFlowM3PerS`. */
  pump: pumpTruth,
  /** Last start from rest. */
  priming: primingTruth,
  /** Where a dry pump comes to rest at the speed last commanded (before any: 10 rev/s), against its pipe and blanked. */
  dryLift: z.strictObject({
    speedRevPerS: z.number(),
    limitM: z.number(),
    balancePressurePa: z.number(),
    blankOffPressurePa: z.number(),
  }),
  /** What was planted besides. */
  plant: practicePlant,
});
export type PracticeTruth = z.infer<typeof practiceTruth>;
