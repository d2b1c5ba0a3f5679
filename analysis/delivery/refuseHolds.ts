import type { LawTerm, SlipFitRefusal } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { differenceFrom, unitOf } from '../units.ts';

/** The pressure must vary by this share of its largest, and by this much: less cannot tell slip from capacity. */
const LEAST_PRESSURE_SPAN_SHARE = 0.25;
const LEAST_PRESSURE_SPAN_PA = 2e4;

function inBar(differencePa: number): string {
  return differenceFrom(differencePa, unitOf('bar(a)')).toFixed(2);
}

function holdsInWords(count: number): string {
  return count === 1 ? 'one hold' : `${count} holds`;
}

/**
 * What the holds lack for a law of given terms, before anything is fitted. A term that the set points could tell apart is
 * never dropped to make few holds suffice: what it takes up would go into capacity unseen.
 *
 * @param holds - averaged holds, in any order [n holds]
 * @param terms - of the full model [-]
 * @returns the refusal, saying what to add; null where a fit may be tried [-]
 */
export function refuseHolds(holds: readonly HoldState[], terms: readonly LawTerm[]): SlipFitRefusal | null {
  if (holds.length === 0) {
    return {
      code: 'NO_HOLDS',
      text: 'No hold was found: nothing stood still long enough to be averaged. Hold each set point until all channels are steady, then a few seconds more.',
    };
  }
  const needed = terms.length + 1;
  if (holds.length < needed) {
    const missing = needed - holds.length;
    return {
      code: 'TOO_FEW_HOLDS',
      got: holds.length,
      needed,
      text: `${holds.length === 1 ? 'One hold' : `${holds.length} holds`} for ${terms.length} coefficients: a slip law at these set points takes ${needed}, so that one is left to show how well it fits. Add ${holdsInWords(missing)} or more at other pressures and speeds.`,
    };
  }
  const pressures = holds.map((hold) => hold.differentialPressurePa.value);
  const spanPa = Math.max(...pressures) - Math.min(...pressures);
  const neededPa = Math.max(LEAST_PRESSURE_SPAN_PA, LEAST_PRESSURE_SPAN_SHARE * Math.max(...pressures.map(Math.abs)));
  if (spanPa < neededPa) {
    return {
      code: 'PRESSURE_NOT_VARIED',
      spanPa,
      neededPa,
      text: `The pressure difference was varied by ${inBar(spanPa)} bar; telling slip from capacity takes ${inBar(neededPa)} bar or more. Add holds at low and at high pressure.`,
    };
  }
  return null;
}

/** The columns of a hold that must be numbers before it is averaged into a law. */
const NUMBERS = [
  'speedRevPerS',
  'differentialPressurePa',
  'inletFlowM3PerS',
  'dynamicViscosityPaS',
  'densityKgPerM3',
] as const;

/** @throws RangeError if a hold was left out and passed all the same, or one of its values is not a finite number */
export function requireUsableHolds(holds: readonly HoldState[]): void {
  for (const hold of holds) {
    if (hold.leftOut !== null) throw new RangeError(`holds: hold ${hold.number} is left out (${hold.leftOut.cause})`);
    for (const name of NUMBERS) {
      if (!Number.isFinite(hold[name].value)) {
        throw new RangeError(`holds: ${name} of hold ${hold.number} is ${hold[name].value}, not a number`);
      }
    }
  }
}
