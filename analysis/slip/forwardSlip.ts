import { oilState } from '../oil/oilState.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import { gapReynolds, LAMINAR_UP_TO_REYNOLDS, pressureFlow } from './gapLaws.ts';
import type { Gap, GapMap, GapPlace } from './gapMap.ts';

/** Oil and running state at which slip is predicted. */
export type SlipState = {
  readonly oil: OilRecord;
  /** Of oil and parts alike [K]. */
  readonly temperatureK: number;
  readonly differentialPressurePa: number;
  readonly speedRevPerS: number;
};

/** One way of the oil at the state asked for. */
type GapSlip = {
  readonly place: GapPlace;
  readonly label: string;
  readonly slipM3PerS: number;
  /** Of the whole slip; 0 where nothing slips [1]. */
  readonly share: number;
  readonly reynolds: number;
  readonly isLaminar: boolean;
};

/** Slip and drag without their uncertainty: quick enough for a slider. */
export type ForwardSlip = {
  /** Pressure-driven, at the inlet's viscosity; it does not depend on speed [m³/s]. */
  readonly slipM3PerS: number;
  /** What moving walls carry forward beyond V_g; V_i is V_g with this added [m³/rev]. */
  readonly dragM3PerRev: number;
  readonly gaps: readonly GapSlip[];
  /** Shares by place, largest first. */
  readonly places: readonly { readonly place: GapPlace; readonly share: number }[];
  readonly isLaminar: boolean;
  /** '71 % goes over the faces, 25 % over the tips, …' */
  readonly inWords: string;
  /** Whether the gap laws hold here, in words. */
  readonly validity: string;
};

/** Conductance and drag of a map's gaps together [m³, m³/rev]. */
export type GapTotals = { readonly conductanceM3: number; readonly dragM3PerRev: number };

export function totalsOf(gaps: readonly Gap[]): GapTotals {
  let conductanceM3 = 0;
  let dragM3PerRev = 0;
  for (const gap of gaps) {
    conductanceM3 += gap.conductanceM3;
    dragM3PerRev += gap.dragM3PerRev;
  }
  return { conductanceM3, dragM3PerRev };
}

function placesOf(gaps: readonly GapSlip[]): ForwardSlip['places'] {
  const shares = new Map<GapPlace, number>();
  for (const { place, share } of gaps) shares.set(place, (shares.get(place) ?? 0) + share);
  return [...shares].map(([place, share]) => ({ place, share })).sort((a, b) => b.share - a.share);
}

/** '71 % goes over the faces, 25 % over the tips': places with half a per cent or more. */
function inWords(places: ForwardSlip['places']): string {
  const named = places.filter(({ share }) => share >= 0.005);
  if (named.length === 0) return 'nothing slips: every gap is shut';
  return named
    .map(({ place, share }, index) => `${(100 * share).toFixed(0)} % ${index === 0 ? 'goes ' : ''}${place}`)
    .join(', ');
}

function validityOf(gaps: readonly GapSlip[]): string {
  const turbulent = gaps.filter(({ isLaminar }) => !isLaminar);
  const highest = gaps.reduce((most, { reynolds }) => Math.max(most, reynolds), 0).toFixed(0);
  if (turbulent.length === 0) {
    return `laminar in every gap: Reynolds number ${highest} at most, the laws hold up to ${LAMINAR_UP_TO_REYNOLDS}`;
  }
  const where = turbulent.map(({ place, label }) => `${place} (${label})`).join(', ');
  return `not laminar ${where}: Reynolds number up to ${highest}, the laws hold up to ${LAMINAR_UP_TO_REYNOLDS}; the slip is less than predicted`;
}

function checkedState({ differentialPressurePa, speedRevPerS, temperatureK }: SlipState): void {
  for (const [name, value] of Object.entries({ differentialPressurePa, speedRevPerS, temperatureK })) {
    if (!(Number.isFinite(value) && value >= 0)) throw new RangeError(`${name}: ${value}, expected zero or more`);
  }
}

/**
 * Slip to expect of a pump with these clearances, Σ k Δp/µ over all ways of the oil, the share of each way, and the oil
 * that moving walls carry forward in a turn.
 *
 * @param map - gap map of the pump [-]
 * @param state - oil, temperature, pressure difference and speed, zero or more [K, Pa, rev/s]
 * @returns slip [m³/s], drag [m³/rev], shares [1] and validity [-]; refused where parts bind at this temperature [-]
 * @throws RangeError if a number of the state is negative or not finite
 *
 * Source: laminar gap laws (gapLaws.ts).
 */
export function forwardSlip(map: GapMap, state: SlipState): Outcome<ForwardSlip, StripRefusal> {
  checkedState(state);
  const found = map.gapsAt(state.temperatureK, {});
  if (!found.ok) return found;
  const oil = oilState(state.oil, state.temperatureK);
  const drive = {
    dynamicViscosityPaS: oil.dynamicViscosityPaS,
    differentialPressurePa: state.differentialPressurePa,
  };
  const { conductanceM3, dragM3PerRev } = totalsOf(found.value);
  const gaps = found.value.map((gap): GapSlip => {
    const slipM3PerS = pressureFlow(gap.conductanceM3, drive);
    const reynolds = gapReynolds(oil, slipM3PerS / gap.breadthM, gap.dragPerBreadthM2PerRev * state.speedRevPerS);
    return {
      place: gap.place,
      label: gap.label,
      slipM3PerS,
      share: conductanceM3 === 0 ? 0 : gap.conductanceM3 / conductanceM3,
      reynolds,
      isLaminar: reynolds <= LAMINAR_UP_TO_REYNOLDS,
    };
  });
  const places = placesOf(gaps);
  return yes({
    slipM3PerS: pressureFlow(conductanceM3, drive),
    dragM3PerRev,
    gaps,
    places,
    isLaminar: gaps.every(({ isLaminar }) => isLaminar),
    inWords: inWords(places),
    validity: validityOf(gaps),
  });
}
