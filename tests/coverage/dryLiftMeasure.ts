import { estimateDryLift } from '../../analysis/dryLift/estimate/dryLiftLimit.ts';
import type { DryFitInput } from '../../analysis/dryLift/fit/dryFitInput.ts';
import { fitDryPump } from '../../analysis/dryLift/fit/fitDryPump.ts';
import type { Interval } from '../../analysis/dryLift/fit/functionOfFit.ts';
import { type RecordedDryPump, SPEED_REV_PER_S } from './dryLiftRecord.ts';

export type MeasuredLimit =
  | {
      readonly isRefused: false;
      readonly limitM: Interval;
      readonly oracleM: Interval;
      readonly truthM: number;
      readonly gapChange: string;
      readonly warnings: readonly string[];
    }
  | { readonly isRefused: true; readonly code: string };

function limitOf(input: DryFitInput) {
  const fit = fitDryPump(input);
  if (!fit.ok) return fit;
  const { gapChange, warnings } = fit.value;
  const { limitM } = estimateDryLift(fit.value, SPEED_REV_PER_S);
  return { ok: true, value: { limitM, gapChange, warnings: warnings.map(({ code }) => code) } } as const;
}

/** The limit that a bench's dry starts tell, and that of an oracle who knows all of the pump but leak-back and dead volume. */
export function measureDryLimit({ input, truth }: RecordedDryPump): MeasuredLimit {
  if (!input.ok) return { isRefused: true, code: input.reason.code };
  const seen = limitOf(input.value);
  if (!seen.ok) return { isRefused: true, code: seen.reason.code };
  const { carryOverShare, entryLoss, exponent } = truth;
  const oracle = limitOf({ ...input.value, known: { carryOverShare, entryLoss, exponent } });
  if (!oracle.ok) return { isRefused: true, code: `oracle: ${oracle.reason.code}` };
  return { isRefused: false, ...seen.value, oracleM: oracle.value.limitM, truthM: truth.limitM };
}
