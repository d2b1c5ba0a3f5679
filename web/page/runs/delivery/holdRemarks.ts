import { printedUnit, printFixed } from '../../../../analysis/formatStated.ts';
import type { HoldResult, SlipLaw } from '../../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { CHANNEL_DISPLAY, channelLabel } from '../../words/channelDisplay.ts';

/** A hold whose residual is this many of its own standard deviations is pointed at; common practice, no source [1]. */
const WORTH_A_LOOK = 2.5;

type Drift = HoldResult['drifts'][number];

function driftWords({ channel, change }: Drift): string {
  const { unitSymbol, decimals } = CHANNEL_DISPLAY[channel];
  const size = printFixed(Math.abs(differenceFrom(change, unitOf(unitSymbol))), decimals + 1);
  const unit = printedUnit(unitSymbol).replace(/\([ag]\)/, '');
  return `${channelLabel(channel)} ${change > 0 ? 'rose' : 'fell'} by ${size} ${unit}`;
}

function influenceRemarks(hold: HoldResult, law: SlipLaw): readonly string[] {
  const { leverage, studentisedResidual, deletedResidualM3PerS } = hold;
  // Above 2 p/n the fit hangs on a hold: Hoaglin and Welsch (1978).
  const isHeavy = leverage !== null && leverage > (2 * law.terms.length) / law.holdCount;
  const standsOff = studentisedResidual !== null && Math.abs(studentisedResidual) > WORTH_A_LOOK;
  const fromOthers =
    deletedResidualM3PerS === null
      ? ''
      : `, ${printFixed(differenceFrom(deletedResidualM3PerS, unitOf('l/min')), 3)} l/min from the law of the others`;
  return [
    ...(isHeavy ? [`The fit hangs on it: leverage ${printFixed(leverage, 2)}.`] : []),
    ...(standsOff ? [`It stands off: studentised residual ${printFixed(studentisedResidual, 1)}${fromOthers}.`] : []),
  ];
}

/** What is worth knowing of a hold beyond its numbers, a sentence each; mostly nothing. */
export function holdRemarks(hold: HoldResult, law: SlipLaw | null): readonly string[] {
  const { leftOut, wildReadingCount: wild, drifts } = hold;
  return [
    ...(leftOut === null ? [] : [`Left out of the fit: ${leftOut.reason.replace(/\.$/, '')}.`]),
    ...(wild === 0 ? [] : [`${wild} wild ${wild === 1 ? 'reading' : 'readings'} left out of the means.`]),
    ...(law === null ? [] : influenceRemarks(hold, law)),
    ...(drifts.length === 0 ? [] : [`Within the limits, yet: ${drifts.map(driftWords).join('; ')}.`]),
  ];
}
