import { formatStated, printFixed } from '../../../analysis/formatStated.ts';
import type { DryLiftResult, Priming } from '../../../analysis/result.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../analysis/units.ts';

const BAR = unitOf('bar(a)');

function bar(differencePa: number): string {
  return printFixed(differenceFrom(differencePa, BAR), 2);
}

function primedSentence(priming: Extract<Priming, { primed: true }>, result: DryLiftResult): string {
  const time = formatStated(priming.primingTimeS, unitOf('s'));
  return (
    `Oil was delivered for good ${time.value} s (± ${time.expandedUncertainty} s) after the motor started, from ` +
    `${printFixed(result.staticLiftM, 2)} m below, at ${printFixed(readingFrom(result.speedRevPerS, unitOf('r/min'), 0), 0)} r/min, ` +
    `the pump prepared as ${result.wetness}.`
  );
}

function dryPumpSentence(priming: Extract<Priming, { primed: false }>, result: DryLiftResult): string {
  const arrived = `Oil has not arrived after ${printFixed(priming.watchedForS, 0)} s.`;
  if (result.lowestSuctionPressurePa === null) return arrived;
  const drawn = result.barometerPa - result.lowestSuctionPressurePa.value;
  const asked = result.barometerPa - result.columnPressurePa;
  const meaning =
    drawn < asked
      ? 'the pump does not seal, or air gets in. Look for leaks on the suction side first, then at the clearances.'
      : 'that would carry the column, yet no oil came: look at the pipe, the strainer and the flow meter.';
  return `${arrived} Suction stalled ${bar(drawn)} bar below atmosphere; the column asks for ${bar(asked)} bar: ${meaning}`;
}

/** What a dry start showed, as a fitter would say it. */
export function primingSentence(result: DryLiftResult): string {
  if (!result.priming.ok) return result.priming.reason.text;
  const priming = result.priming.value;
  return priming.primed ? primedSentence(priming, result) : dryPumpSentence(priming, result);
}
