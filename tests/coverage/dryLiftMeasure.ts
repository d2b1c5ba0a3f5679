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
      readonly allKnowingM: Interval;
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

/**
 * The limit that a bench's dry starts tell, and beside it those of two who know more: the oracle knows the pump's carry-over and
 * the gas's exponent; the all-knowing one the entry loss as well. No paper states an entry loss and no start against half a metre
 * shows it, while the limit at deep vacuum hangs on it: who is told it knows what no reading of such a start could tell.
 */
export function measureDryLimit({ input, truth }: RecordedDryPump): MeasuredLimit {
  if (!input.ok) return { isRefused: true, code: input.reason.code };
  const seen = limitOf(input.value);
  if (!seen.ok) return { isRefused: true, code: seen.reason.code };
  const { carryOverShare, entryLoss, exponent } = truth;
  const oracle = limitOf({ ...input.value, known: { carryOverShare, exponent } });
  if (!oracle.ok) return { isRefused: true, code: `oracle: ${oracle.reason.code}` };
  const allKnowing = limitOf({ ...input.value, known: { carryOverShare, entryLoss, exponent } });
  if (!allKnowing.ok) return { isRefused: true, code: `all-knowing: ${allKnowing.reason.code}` };
  const [oracleM, allKnowingM] = [oracle.value.limitM, allKnowing.value.limitM];
  return { isRefused: false, ...seen.value, oracleM, allKnowingM, truthM: truth.limitM };
}
