import { no, type Outcome, yes } from '../outcome.ts';
import type { PumpMaterials } from '../records/material.ts';
import type { SlipLaw } from '../result.ts';
import { expansionOf } from '../slip/expansion.ts';
import type { GapMap, GapQuantity } from '../slip/gapMap.ts';
import { totalsAt } from '../slip/predictSlip.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';

/** From what the change of the clearances with temperature is reckoned. */
export type ClearanceBasis = {
  /** Of the strip sheet; null: there is none, and a growth is assumed. */
  readonly map: GapMap | null;
  readonly materials: PumpMaterials;
  /** Of oil and parts when the law was measured. */
  readonly runTemperatureK: number;
};

/** How much more the gaps let through at another temperature, at the same viscosity. */
export type ClearanceChange = {
  /** Conductance there over conductance at the run's temperature; C_l is multiplied by it [1]. */
  readonly factor: Uncertain;
  readonly sources: readonly Source[];
  readonly basis: 'strip sheet' | 'assumed';
  readonly inWords: string;
};

export type ClearanceRefusal = StripRefusal | { readonly code: 'NOTHING_LEAKS'; readonly text: string };

/** Length over clearance of the gap that grows most: a face of 20 mm with 0.05 mm of end float; common practice, no source [1]. */
const LENGTH_OVER_CLEARANCE = 400;

const ASSUMED_SOURCE_ID = 'clearance.growth';
const MOST_HALVINGS = 12;

/** The middle of the oil temperatures of the holds, at which a law's C_l was measured [K]. */
export function runTemperatureOf({ oilTemperatureK: [low, high] }: SlipLaw['range']): number {
  return (low + high) / 2;
}

function standardUncertaintyOf({ value, sources }: GapQuantity): number {
  return Math.hypot(
    ...sources.map(({ id, standardUncertainty }) => (value.sensitivities[id] ?? 0) * standardUncertainty),
  );
}

function byStripSheet(
  map: GapMap,
  runTemperatureK: number,
  temperatureK: number,
): Outcome<ClearanceChange, ClearanceRefusal> {
  for (const at of [runTemperatureK, temperatureK]) {
    const gaps = map.gapsAt(at, {});
    if (!gaps.ok) return gaps;
  }
  const ratio = (replaced: Readonly<Record<string, number>>): number | null => {
    const there = totalsAt(map, temperatureK, replaced);
    const here = totalsAt(map, runTemperatureK, replaced);
    if (there === null || here === null || !(here.conductanceM3 > 0)) return null;
    return there.conductanceM3 / here.conductanceM3;
  };
  const factor = ratio({});
  if (factor === null || factor === 0) {
    return no({
      code: 'NOTHING_LEAKS',
      text: 'By the strip sheet nothing leaks at one of the two temperatures, so no ratio tells what the clearances do. Look at the clearances on the sheet.',
    });
  }
  const slopeOf = (quantity: GapQuantity): number => {
    const { id, value } = quantity;
    let step = standardUncertaintyOf(quantity);
    for (let halving = 0; halving < MOST_HALVINGS && step > 0; halving += 1, step /= 2) {
      const low = Math.max(0, value.value - step);
      const [below, above] = [ratio({ [id]: low }), ratio({ [id]: value.value + step })];
      if (below !== null && above !== null) return (above - below) / (value.value + step - low);
    }
    return 0;
  };
  return yes({
    factor: combine(
      factor,
      map.quantities.map((quantity) => ({ input: quantity.value, derivative: slopeOf(quantity) })),
    ),
    sources: map.quantities.flatMap(({ sources }) => sources),
    basis: 'strip sheet',
    inWords: `by the strip sheet the gaps let ${(100 * factor).toFixed(0)} % through of what they let through in the run, at one viscosity`,
  });
}

function assumedWords(halfWidthPercent: number): string {
  const asInRun = 'no strip sheet: the gaps are taken as they were in the run';
  return halfWidthPercent < 0.5
    ? `${asInRun}, which was as warm`
    : `${asInRun}, give or take ${halfWidthPercent.toFixed(0)} % of what they let through`;
}

function byAssumption({ materials, runTemperatureK }: ClearanceBasis, temperatureK: number): ClearanceChange {
  const [body, gears] = [expansionOf(materials.body), expansionOf(materials.gears)];
  const differencePerK = Math.abs(body.perK - gears.perK) + body.halfWidthPerK + gears.halfWidthPerK;
  const halfWidthPerK = 3 * LENGTH_OVER_CLEARANCE * differencePerK;
  const warmerK = temperatureK - runTemperatureK;
  // The source is the growth by a kelvin, the same at every temperature that the law is spoken at.
  const source: Source = {
    id: ASSUMED_SOURCE_ID,
    label: 'change of the clearances with temperature, assumed',
    kind: 'calibration',
    standardUncertainty: halfWidthPerK / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
    pooledAs: null,
  };
  return {
    factor: { value: 1, sensitivities: { [source.id]: warmerK } },
    sources: [source],
    basis: 'assumed',
    inWords: assumedWords(100 * halfWidthPerK * Math.abs(warmerK)),
  };
}

/**
 * How the clearances change what leaks, between the run's temperature and another: the ratio κ(T)/κ(T_run) of the
 * conductances that the strip sheet's gap map has. Sources that act alike on both cancel. Without a strip sheet the factor
 * is 1 with a rectangular error of half-width 3 · 400 · (|α_body − α_gears| + their half-widths) · |T − T_run|.
 *
 * @param basis - gap map or null, materials, temperature of the run [K]
 * @param temperatureK - of oil and parts where the law is spoken [K]
 * @returns factor on C_l with its sources [1]; refused where parts bind or nothing leaks [-]
 *
 * Source: gap laws and linear expansion as in the gap map. The assumed width is derived here: κ ∝ h³ gives dκ/κ = 3 dh/h,
 * and dh/h = (ℓ/h) Δα ΔT with ℓ/h = 400. The orifice term, which grows with h only, is left as it was.
 */
export function clearanceChange(
  basis: ClearanceBasis,
  temperatureK: number,
): Outcome<ClearanceChange, ClearanceRefusal> {
  if (basis.map !== null) return byStripSheet(basis.map, basis.runTemperatureK, temperatureK);
  return yes(byAssumption(basis, temperatureK));
}
