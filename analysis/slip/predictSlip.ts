import { oilSources, oilStateAt } from '../oil/oilStateAt.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import { combine, exactly, type Source, type Uncertain } from '../uncertainty/source.ts';
import { type ForwardSlip, forwardSlip, type GapTotals, type SlipState, totalsOf } from './forwardSlip.ts';
import type { GapMap, GapQuantity, Replaced } from './gapMap.ts';

/** Slip and drag to expect, with the sources of their uncertainty. */
export type PredictedSlip = Omit<ForwardSlip, 'slipM3PerS' | 'dragM3PerRev'> & {
  readonly slipM3PerS: Uncertain;
  readonly dragM3PerRev: Uncertain;
  readonly sources: readonly Source[];
};

/** Totals with some quantities replaced [m³, m³/rev]; null where that is impossible. */
export function totalsAt(map: GapMap, temperatureK: number, replaced: Replaced): GapTotals | null {
  const gaps = map.gapsAt(temperatureK, replaced);
  return gaps.ok ? totalsOf(gaps.value) : null;
}

function standardUncertaintyOf({ value, sources }: GapQuantity): number {
  let variance = 0;
  for (const { id, standardUncertainty } of sources) {
    variance += ((value.sensitivities[id] ?? 0) * standardUncertainty) ** 2;
  }
  return Math.sqrt(variance);
}

const MOST_HALVINGS = 12;

/**
 * Mean slope over ± one standard uncertainty, which is what a cubic law makes of a wide clearance; over less where that
 * leaves what is possible. Source: JCGM 100:2008, 5.1.3, note 2.
 */
function slopesOf(map: GapMap, temperatureK: number, quantity: GapQuantity): GapTotals {
  const { id, value } = quantity;
  let step = standardUncertaintyOf(quantity);
  for (let halving = 0; halving < MOST_HALVINGS && step > 0; halving += 1, step /= 2) {
    const low = Math.max(0, value.value - step);
    const below = totalsAt(map, temperatureK, { [id]: low });
    const above = totalsAt(map, temperatureK, { [id]: value.value + step });
    if (below === null || above === null) continue;
    const width = value.value + step - low;
    return {
      conductanceM3: (above.conductanceM3 - below.conductanceM3) / width,
      dragM3PerRev: (above.dragM3PerRev - below.dragM3PerRev) / width,
    };
  }
  return { conductanceM3: 0, dragM3PerRev: 0 };
}

/**
 * Slip to expect of a pump with these clearances as {@link forwardSlip} has it, with its uncertainty from every
 * measurement, assumption and the oil.
 *
 * @param map - gap map of the pump [-]
 * @param state - oil, temperature, pressure difference and speed, zero or more [K, Pa, rev/s]
 * @returns slip [m³/s] and drag [m³/rev] with their sources; refused where parts bind at this temperature [-]
 * @throws RangeError if a number of the state is negative or not finite
 *
 * Source: JCGM 100:2008, 5.1.
 */
export function predictSlip(map: GapMap, state: SlipState): Outcome<PredictedSlip, StripRefusal> {
  const forward = forwardSlip(map, state);
  if (!forward.ok) return forward;
  const { oil, temperatureK, differentialPressurePa } = state;
  const { slipM3PerS, dragM3PerRev, ...rest } = forward.value;
  const { dynamicViscosityPaS } = oilStateAt(oil, exactly(temperatureK));
  const perConductance = differentialPressurePa / dynamicViscosityPaS.value;
  const slopes = map.quantities.map((quantity) => ({
    input: quantity.value,
    by: slopesOf(map, temperatureK, quantity),
  }));
  return yes({
    ...rest,
    slipM3PerS: combine(slipM3PerS, [
      ...slopes.map(({ input, by }) => ({ input, derivative: by.conductanceM3 * perConductance })),
      { input: dynamicViscosityPaS, derivative: -slipM3PerS / dynamicViscosityPaS.value },
    ]),
    dragM3PerRev: combine(
      dragM3PerRev,
      slopes.map(({ input, by }) => ({ input, derivative: by.dragM3PerRev })),
    ),
    sources: [...map.quantities.flatMap(({ sources }) => sources), ...oilSources(oil)],
  });
}
