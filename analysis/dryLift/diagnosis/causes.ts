/** Why a pump did not prime, as far as a start's record can tell. */
export const NO_PRIMING_CAUSES = {
  pumpDoesNotSeal:
    'The pump itself does not seal: gas leaks back through its gaps as fast as it is taken. Look at end float, tip and mesh clearance and shaft seal, or wet it better.',
  suctionPipeLeak:
    'The suction pipe leaks: it lost its suction with the flange valve shut, when no pump stood behind it. Look for the leak in joints, hoses and gaskets.',
  airAtTheFoot:
    'Air is drawn in at the foot: oil comes mixed with it. Look at the oil level over the strainer, and at the strainer and foot valve.',
  reliefNotSeating:
    'Gas comes back as through an open hole, not as through narrow gaps: a relief valve that does not seat, or a gap as wide as a hole. Plug the relief valve and start again.',
  shaftNotDriven:
    'The motor turns and the suction does not move at all: shaft or idler is not driven. Look at coupling, key and the driven gear.',
  deliveryNotVented:
    'Air is shut in on the delivery side and pushes back through the pump. Open a vent or the delivery valve, and start again.',
  pipeBlocked:
    'The suction is enough for the lift and no oil comes: the suction pipe is blocked, or its foot valve stuck.',
  wrongRotation: 'The suction rises when the motor starts: the pump turns the wrong way, or its ports are exchanged.',
} as const;
export type NoPrimingCause = keyof typeof NO_PRIMING_CAUSES;

/** The most likely cause with the sign that was read, or that it cannot be told and between what it stands. */
export type Cause =
  | { readonly told: true; readonly code: NoPrimingCause; readonly text: string; readonly sign: string }
  | {
      readonly told: false;
      readonly code: 'WATCH_LONGER' | 'HOLD_TEST_NEEDED' | 'LEAKS_ALIKE' | 'NO_SUCTION_CHANNEL' | 'OIL_STANDS_AT_PUMP';
      /** What to do to know more. */
      readonly text: string;
      readonly sign: string;
      readonly candidates: readonly NoPrimingCause[];
    };

/**
 * A cause that was told.
 *
 * @param code - which [-]
 * @param sign - what was read, with its numbers [-]
 * @returns the cause with its words [-]
 */
export function told(code: NoPrimingCause, sign: string): Cause {
  return { told: true, code, text: NO_PRIMING_CAUSES[code], sign };
}
