import { z } from 'zod';

/** The last start from rest: when the motor began to turn, and when oil came to stay. Bench time. */
export const primingTruth = z.strictObject({
  motorStartS: z.number().nullable(),
  primedAtS: z.number().nullable(),
  primingTimeS: z.number().nullable(),
});
type PrimingTruth = z.infer<typeof primingTruth>;

export type PrimingWatch = {
  readonly observe: (atS: number, speedRevPerS: number, portFlowM3PerS: number) => void;
  readonly truth: () => PrimingTruth;
};

/** Flow must reach half of the geometric flow … */
const FLOW_SHARE = 0.5;
/** … and stay there this long [s]. */
const STAY_S = 2;

/**
 * Watches a start from rest, on noise-free values.
 *
 * @param sweptVolumeM3PerRev - nominal geometry [m³/rev]
 * @returns the watch; it forgets the start before at the next one
 */
export function createPrimingWatch(sweptVolumeM3PerRev: number): PrimingWatch {
  let wasTurning = false;
  let motorStartS: number | null = null;
  let candidateS: number | null = null;
  let primedAtS: number | null = null;

  return {
    observe(atS, speedRevPerS, portFlowM3PerS) {
      const isTurning = speedRevPerS > 0;
      if (isTurning && !wasTurning) {
        motorStartS = atS;
        primedAtS = null;
        candidateS = null;
      }
      wasTurning = isTurning;
      if (primedAtS !== null || motorStartS === null) return;
      if (!isTurning || portFlowM3PerS < FLOW_SHARE * sweptVolumeM3PerRev * speedRevPerS) candidateS = null;
      else candidateS ??= atS;
      if (candidateS !== null && atS - candidateS >= STAY_S) primedAtS = candidateS;
    },
    truth: () => ({
      motorStartS,
      primedAtS,
      primingTimeS: primedAtS === null || motorStartS === null ? null : primedAtS - motorStartS,
    }),
  };
}
