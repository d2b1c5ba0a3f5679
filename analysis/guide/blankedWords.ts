import { printFixed, printRpm } from '../formatStated.ts';
import { longestDryTurningS, whyNeverDry } from './dryTurning.ts';

/** The suction has come to rest when it stands so long: a house limit from trade practice, no source [s]. */
export const BLANKED_STANDS_S = 2;

/** Between dry runs, so that films and metal cool: a house limit from trade practice, no source [min]. */
const REST_BETWEEN_RUNS_MIN = 10;

/** House limits of dry running, from trade practice without a published source. */
export const BLANKED_CAUTION = `House limits, from trade practice: stop as soon as the suction has stood still for ${BLANKED_STANDS_S} s and at the latest after ${longestDryTurningS('W1')} s of turning in all (bone dry: ${longestDryTurningS('W0')} s, at low speed); stop at once if the case warms by 10 K or the torque rises by half; wait ${REST_BETWEEN_RUNS_MIN} minutes before the next run. Never with rubber parts, a progressing cavity, or a face seal that oil must wet.`;

/** Whether a blanked start is for this pump, and what it would tell. */
export function blankedAdvice(pump: Parameters<typeof whyNeverDry>[0]): {
  readonly isAllowed: boolean;
  readonly text: string;
} {
  const why = whyNeverDry(pump);
  if (why !== null) return { isAllowed: false, text: `${why} A blanked start is not for it.` };
  return {
    isAllowed: true,
    text: 'Two starts with the suction shut at the flange, at this speed and at half of it, before the pump is flooded, would narrow the limit: they tell leak-back and carry-over apart.',
  };
}

/** Where a blanked run stands. */
export type BlankedPhase = 'atRest' | 'drawing' | 'comingBack' | 'over' | 'oneOnly' | 'timeOut';

/** What to do next in a blanked run. */
export function blankedSentence(
  phase: BlankedPhase,
  speedRevPerS: number,
  { turnedS, longestS }: { readonly turnedS: number; readonly longestS: number },
): string {
  switch (phase) {
    case 'atRest':
      return `Shut the suction at the pump's flange, pump dry, delivery open and vented: start the motor to ${printRpm(speedRevPerS)} r/min. The case 10 K warmer or the torque up by half ends it.`;
    case 'drawing':
      return `Wait until the suction has stood still for ${BLANKED_STANDS_S} s, then stop the motor: ${printFixed(turnedS, 0)} s of ${longestS} s that this pump may turn dry.`;
    case 'comingBack':
      return `Leave the motor at rest until the suction is back at the atmosphere; if it stays down, open the valve for a moment and shut it again. Then start to ${printRpm(speedRevPerS)} r/min.`;
    case 'over':
      return 'Both speeds are recorded: stop the run, and wait ten minutes before the pump turns dry again.';
    case 'oneOnly':
      return 'One speed is recorded, and the suction did not come back for the other: stop the run. It tells leak-back, and carry-over not apart from it.';
    case 'timeOut':
      return `The pump has turned dry for ${longestS} s: stop the motor now, then the run. More of it harms the pump.`;
  }
}
