import { decimalsFor, formatStated, printedUnit, printFixed, printRpm } from '../formatStated.ts';
import type { DryLiftResult } from '../result.ts';
import type { DryLiftEstimateResult, MachineOutcome } from '../resultSchema/dryLiftSchema.ts';
import { readingFrom, unitOf } from '../units.ts';
import { timeIntervalWords } from './series/timeIntervalWords.ts';

type Ends = { readonly value: number; readonly lower: number; readonly upper: number };

const INTERVAL_DIGITS = 2;

/**
 * A value with an interval that need not lie evenly about it, digits as many as its width carries.
 *
 * @param interval - value and ends [SI unit of the quantity]
 * @param unitSymbol - to print in; absolute where it is a pressure [-]
 * @returns '5.9 m (95 %: 4.2 to 8.2 m)' [-]
 *
 * @example intervalWords({ value: 5.949, lower: 4.161, upper: 8.164 }, 'm') // '5.9 m (95 %: 4.2 to 8.2 m)'
 */
export function intervalWords(interval: Ends, unitSymbol: string): string {
  const { value, lower, upper } = interval;
  const unit = unitOf(unitSymbol);
  const [middle, low, high] = [value, lower, upper].map((each) => readingFrom(each, unit, 0));
  const half = ((high ?? Number.NaN) - (low ?? Number.NaN)) / 2;
  const decimals = Math.max(0, half > 0 ? decimalsFor(half, INTERVAL_DIGITS) : INTERVAL_DIGITS);
  const words = (each = Number.NaN): string => printFixed(each, decimals);
  const symbol = printedUnit(unitSymbol);
  const after = symbol === '' ? '' : ` ${symbol}`;
  return `${words(middle)}${after} (95 %: ${words(low)} to ${words(high)}${after})`;
}

/** What is proven of a lift, in a sentence; nothing that was only estimated. */
export function provenWords({ priming, staticLiftM, speedRevPerS, wetness }: DryLiftResult): string {
  if (!priming.ok) return priming.reason.text;
  const where = `${staticLiftM.toFixed(3)} m at ${printRpm(speedRevPerS)} r/min, in class ${wetness}`;
  if (!priming.value.primed) {
    return `Not proven: no oil had come from ${where}, ${printFixed(priming.value.watchedForS, 1)} s after motor start.`;
  }
  const { value, expandedUncertainty } = formatStated(priming.value.primingTimeS, unitOf('s'));
  return `Proven: oil came from ${where}, in ${value} ± ${expandedUncertainty} s. One start of one.`;
}

/** The dry lift limit at each speed that was run, a sentence each. */
export function limitWords({ limits }: DryLiftEstimateResult, wetness: string): readonly string[] {
  return limits.map(
    ({ limitM, speedRevPerS }) =>
      `Estimated: dry lift limit ${intervalWords(limitM, 'm')} at ${printRpm(speedRevPerS)} r/min, in class ${wetness}.`,
  );
}

/** What the readings did not tell, and what was taken in its place; null: they told all. */
export function untoldWords({ identified, gapChange }: DryLiftEstimateResult): string | null {
  const untold = [
    identified.leakBack === 'told' ? [] : ['leak-back'],
    identified.deadVolume === 'told' ? [] : ['the dead volume better than it was stated'],
    identified.carryOver === 'told' ? [] : ['carry-over'],
    gapChange.verdict === 'undecided' ? ['whether leak-back changed during the start'] : [],
  ].flat();
  if (untold.length === 0) return null;
  return `Not told by the readings: ${untold.join(', ')}. Each was left free within what a pump may have, and the interval counts it in.`;
}

type Prediction = Extract<NonNullable<MachineOutcome>, { readonly ok: true }>['value'];

function inletWords({ lowestInletPressurePa, leastInletPressurePa, isAboveLeastPressure }: Prediction): string {
  const lowest = `Inlet pressure down to ${intervalWords(lowestInletPressurePa, 'bar(a)')}`;
  if (leastInletPressurePa === null || isAboveLeastPressure === null) return `${lowest}; nobody set a limit to it.`;
  const least = `${printFixed(readingFrom(leastInletPressurePa, unitOf('bar(a)'), 0), 2)} bar(a)`;
  return {
    yes: `${lowest}: it stays above the ${least} that was set.`,
    no: `${lowest}: it falls below the ${least} that was set, and the pump may cavitate.`,
    'not proven': `${lowest}: whether it stays above the ${least} that was set is not proven.`,
  }[isAboveLeastPressure];
}

/** What is predicted for the machine, or why nothing is; null: its suction is not known. */
export function machineWords({ machine }: { readonly machine: MachineOutcome }): string | null {
  if (machine === null) return null;
  if (!machine.ok) return `No prediction for the machine. ${machine.reason.text}`;
  const { staticLiftM, speedRevPerS, oilTemperatureK, barometerPa, marginM, primingTimeS, isOilExtrapolated } =
    machine.value;
  const oil = `oil at ${printFixed(readingFrom(oilTemperatureK, unitOf('degC'), 0), 0)} °C`;
  const air = `air at ${printFixed(readingFrom(barometerPa, unitOf('mbar(a)'), 0), 0)} mbar`;
  const time =
    primingTimeS.value === null ? 'no oil would come' : `oil would come after ${timeIntervalWords(primingTimeS)}`;
  return [
    `Predicted for the machine, and proven by nobody: from ${staticLiftM.toFixed(2)} m at ${printRpm(speedRevPerS)} r/min, ${oil}, ${air}, ${time}.`,
    `Margin, limit less lift: ${intervalWords(marginM, 'm')}.`,
    inletWords(machine.value),
    ...(isOilExtrapolated ? ['The viscosity of the oil was not measured as cold as that.'] : []),
  ].join(' ');
}
