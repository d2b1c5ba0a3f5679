import { formatStated, printFixed } from '../../../analysis/formatStated.ts';
import type { DryLiftResult, Priming } from '../../../analysis/result.ts';
import { readingFrom, unitOf } from '../../../analysis/units.ts';

function primedSentence(priming: Extract<Priming, { primed: true }>, result: DryLiftResult): string {
  const time = formatStated(priming.primingTimeS, unitOf('s'));
  return (
    `Oil was delivered for good ${time.value} s (± ${time.expandedUncertainty} s) after the motor started, from ` +
    `${printFixed(result.staticLiftM, 2)} m below, at ${printFixed(readingFrom(result.speedRevPerS, unitOf('r/min'), 0), 0)} r/min, ` +
    `the pump prepared as ${result.wetness}.`
  );
}

function dryPumpSentence(priming: Extract<Priming, { primed: false }>, result: DryLiftResult): string {
  const where = `from ${printFixed(result.staticLiftM, 2)} m below`;
  return `Oil has not arrived after ${printFixed(priming.watchedForS, 0)} s, ${where}.`;
}

/** What a dry start showed, as a fitter would say it. */
export function primingSentence(result: DryLiftResult): string {
  if (!result.priming.ok) return result.priming.reason.text;
  const priming = result.priming.value;
  return priming.primed ? primedSentence(priming, result) : dryPumpSentence(priming, result);
}
