import type { DiagnosisResult } from '../../analysis/resultSchema/diagnosisSchema.ts';
import { stated } from './stated.ts';

/** An invented failed start: the suction stalled at 1.9 kPa, and the pipe by itself lost 2 kPa in ten seconds. */
export const INVENTED_DIAGNOSIS: DiagnosisResult = {
  timedOutAfterS: 20.04,
  ultimateSuctionPa: stated(1900, 30),
  liftCarriedM: stated(0.223, 0.004),
  cause: { told: true, code: 'suctionPipeLeak', text: 'The suction pipe leaks.', sign: 'It lost its suction.' },
  hold: { verdict: 'leaks', drawnPa: 2004, settledPa: 1500, leftPa: 31, heldForS: 10.2, halfLostS: 2.1 },
};
