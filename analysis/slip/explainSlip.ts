import { oilState } from '../oil/oilState.ts';
import { inMillimetres } from '../strip/stripRefusal.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import type { SlipState } from './forwardSlip.ts';
import type { GapMap, GapQuantity } from './gapMap.ts';
import { predictSlip, totalsAt } from './predictSlip.ts';
import { type ClearanceFunction, possibleRange, valleyZeros } from './valleyZeros.ts';

/** Widest clearance that is tried; nobody looks for slip beyond it [m]. */
const WIDEST_M = 1e-3;

/** Clearances that would explain what was measured. */
export type SlipExplanation = {
  /** None, one or two, the smaller first, cold as on the strip sheet; every uncertainty but the clearance's own is in them [m]. */
  readonly clearancesM: readonly Uncertain[];
  readonly inWords: string;
};

/** One clearance backwards; drag counts in what was measured for so many turns a second. */
type Question = {
  readonly map: GapMap;
  readonly quantity: GapQuantity;
  readonly measuredM3PerS: Uncertain;
  readonly state: SlipState;
  readonly dragTurnsPerS: number;
};

function clearanceOf(map: GapMap, id: string): GapQuantity {
  const quantity = map.quantities.find((entry) => entry.id === id && entry.isClearance);
  if (quantity === undefined) throw new RangeError(`clearanceId: the gap map has no clearance ${JSON.stringify(id)}`);
  return quantity;
}

/** Slip (less drag) that the map has at a clearance, beyond what was measured [m³/s]. */
function excessOf({ map, quantity, measuredM3PerS, state, dragTurnsPerS }: Question): ClearanceFunction {
  const { dynamicViscosityPaS } = oilState(state.oil, state.temperatureK);
  return (clearanceM) => {
    const totals = totalsAt(map, state.temperatureK, { [quantity.id]: clearanceM });
    if (totals === null) return null;
    const slipM3PerS = (totals.conductanceM3 * state.differentialPressurePa) / dynamicViscosityPaS;
    return slipM3PerS - dragTurnsPerS * totals.dragM3PerRev - measuredM3PerS.value;
  };
}

/** A clearance that fits, with the uncertainty of the measured slip and of everything else in the map. */
function withUncertainty(question: Question, excess: ClearanceFunction, clearanceM: number): Uncertain | null {
  const { map, quantity, measuredM3PerS, state, dragTurnsPerS } = question;
  const step = Math.max(clearanceM, 1e-7) * 1e-4;
  // One-sided at the end of what is possible.
  const low = excess(clearanceM - step) === null ? clearanceM : clearanceM - step;
  const high = excess(clearanceM + step) === null ? clearanceM : clearanceM + step;
  const [below, above] = [excess(low), excess(high)];
  const there = predictSlip(
    {
      quantities: map.quantities,
      gapsAt: (at, replaced) => map.gapsAt(at, { [quantity.id]: clearanceM, ...replaced }),
    },
    state,
  );
  if (below === null || above === null || !there.ok || above === below) return null;
  const perSlope = (high - low) / (above - below);
  const own = new Set(quantity.sources.map(({ id }) => id));
  const othersOf = ({ sensitivities }: Uncertain): Uncertain => ({
    value: 0,
    sensitivities: Object.fromEntries(Object.entries(sensitivities).filter(([id]) => !own.has(id))),
  });
  return combine(clearanceM, [
    { input: measuredM3PerS, derivative: perSlope },
    { input: othersOf(there.value.slipM3PerS), derivative: -perSlope },
    { input: othersOf(there.value.dragM3PerRev), derivative: perSlope * dragTurnsPerS },
  ]);
}

function explain(question: Question): SlipExplanation {
  const { label } = question.quantity;
  const excess = excessOf(question);
  const range = possibleRange(excess, WIDEST_M);
  if (range === null) return { clearancesM: [], inWords: `${label}: none explains it, at none can this pump turn` };
  const clearancesM = valleyZeros(excess, range.fromM, range.toM)
    .map((clearanceM) => withUncertainty(question, excess, clearanceM))
    .filter((fit) => fit !== null);
  const [first, second] = clearancesM.map(({ value }) => inMillimetres(value));
  if (first === undefined) {
    const isLessThanOthers = (excess(range.toM) ?? 0) > 0;
    return {
      clearancesM,
      inWords: isLessThanOthers
        ? `${label}: none explains it, the other gaps alone would let more through than was measured`
        : `${label}: none up to ${inMillimetres(range.toM)} explains it, look for another way of the oil`,
    };
  }
  if (second === undefined) return { clearancesM, inWords: `${label}: ${first} would explain it` };
  return {
    clearancesM,
    inWords: `${label}: two would explain it, ${first} and ${second}`,
  };
}

/**
 * The clearance that would explain a measured slip, V_i n − q, all else as on the strip sheet. None or one fits, save
 * where the gear leans more in a wider bush.
 *
 * @param map - gap map of the pump [-]
 * @param clearanceId - which clearance, as `map.quantities` lists it [-]
 * @param slipM3PerS - measured slip against the derived capacity, with its sources [m³/s]
 * @param state - oil, temperature, pressure and speed of the measurement [K, Pa, rev/s]
 * @returns clearances that fit, with their uncertainty [m], and the same in words [-]
 * @throws RangeError if the map has no such clearance
 */
export function clearanceExplainingSlip(
  map: GapMap,
  clearanceId: string,
  slipM3PerS: Uncertain,
  state: SlipState,
): SlipExplanation {
  const quantity = clearanceOf(map, clearanceId);
  return explain({ map, quantity, measuredM3PerS: slipM3PerS, state, dragTurnsPerS: 0 });
}

/**
 * The clearance that would explain a shortfall against the geometry, V_g n − q = slip − drag n. Tips carry oil forward in
 * proportion to h and leak with h³, so none, one or two may fit.
 *
 * @param map - gap map of the pump [-]
 * @param clearanceId - which clearance, as `map.quantities` lists it [-]
 * @param shortfallM3PerS - V_g n − q, with its sources; may be negative [m³/s]
 * @param state - oil, temperature, pressure and speed of the measurement [K, Pa, rev/s]
 * @returns clearances that fit, with their uncertainty [m], and the same in words [-]
 * @throws RangeError if the map has no such clearance
 */
export function clearanceExplainingShortfall(
  map: GapMap,
  clearanceId: string,
  shortfallM3PerS: Uncertain,
  state: SlipState,
): SlipExplanation {
  const quantity = clearanceOf(map, clearanceId);
  return explain({ map, quantity, measuredM3PerS: shortfallM3PerS, state, dragTurnsPerS: state.speedRevPerS });
}
