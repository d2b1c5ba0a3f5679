import { no, type Outcome, yes } from '../outcome.ts';
import { differenceFrom, siDifferenceFrom, unitOf } from '../units.ts';
import type { OilRefusal } from './oilRefusal.ts';
import { VISCOSITY_INDEX_TABLE } from './viscosityIndexTable.ts';

/** The index is not defined for thinner oils [mm²/s at 100 °C]. */
const LEAST_MM2_PER_S = 2;

/** Above the last row of the table two quadratics take its place [mm²/s at 100 °C]. */
const TABLE_ENDS_AT_MM2_PER_S = 70;

/** No oil of the trade lies outside; a value beyond is taken for a slip of the pen. Common practice, no source [1]. */
const INDEX_LIMITS = { least: -100, most: 400 } as const;

/** Enough halvings to bring any bracket down to neighbouring double-precision numbers. */
const MOST_HALVINGS = 200;

/** Where the laws of viscosity end (ASTM D341) [m²/s]. */
const MOST_M2_PER_S = 20;

const MM2_PER_S = unitOf('mm2/s');

/** Viscosities at 40 °C of the reference oils that are as thick as ours at 100 °C [mm²/s]. */
type ReferenceOils = { readonly l: number; readonly h: number };

/** Row at or above which Y lies; the table's steps are uneven, so it is looked up by halving. */
function rowBelow(y: number): number {
  let below = 0;
  let above = VISCOSITY_INDEX_TABLE.length - 1;
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if ((VISCOSITY_INDEX_TABLE[middle]?.[0] ?? Number.POSITIVE_INFINITY) <= y) below = middle;
    else above = middle;
  }
  return below;
}

function referenceOils(y: number): ReferenceOils {
  if (y > TABLE_ENDS_AT_MM2_PER_S) {
    return { l: 0.8353 * y ** 2 + 14.67 * y - 216, h: 0.1684 * y ** 2 + 11.85 * y - 97 };
  }
  const row = rowBelow(y);
  const [from, to] = [VISCOSITY_INDEX_TABLE[row], VISCOSITY_INDEX_TABLE[row + 1]];
  if (from === undefined || to === undefined) throw new RangeError(`y: ${y} mm²/s has no row in the table`);
  const share = (y - from[0]) / (to[0] - from[0]);
  return { l: from[1] + share * (to[1] - from[1]), h: from[2] + share * (to[2] - from[2]) };
}

/** Procedure A up to an index of 100, B from there on; they meet at U = H. */
function indexOf(u: number, y: number): number {
  const { l, h } = referenceOils(y);
  if (u >= h) return ((l - u) / (l - h)) * 100;
  return (10 ** (Math.log10(h / u) / Math.log10(y)) - 1) / 0.00715 + 100;
}

/** Both procedures solved for U [mm²/s]. */
function viscosityAt40C(y: number, index: number): number {
  const { l, h } = referenceOils(y);
  return index <= 100 ? l - (index * (l - h)) / 100 : h / y ** Math.log10(1 + 0.00715 * (index - 100));
}

function requireViscosity(name: string, m2PerS: number): void {
  if (!(m2PerS > 0 && m2PerS <= MOST_M2_PER_S)) {
    throw new RangeError(`${name}: ${m2PerS} m²/s, expected above zero to ${MOST_M2_PER_S}`);
  }
}

function tooThin(y: number): OilRefusal {
  return {
    code: 'VISCOSITY_INDEX_NOT_DEFINED',
    quantity: 'kinematic viscosity at 100 °C [m²/s]',
    value: siDifferenceFrom(y, MM2_PER_S),
    limit: siDifferenceFrom(LEAST_MM2_PER_S, MM2_PER_S),
    text: `the viscosity index is not defined below ${LEAST_MM2_PER_S} mm²/s at 100 °C; this oil has ${y.toPrecision(3)} mm²/s there`,
  };
}

function refuseIndex(index: number): OilRefusal | null {
  if (Number.isNaN(index)) throw new RangeError('viscosityIndex: NaN is not a number');
  const { least, most } = INDEX_LIMITS;
  if (index >= least && index <= most) return null;
  return {
    code: 'VISCOSITY_INDEX_OUT_OF_RANGE',
    quantity: 'viscosity index [1]',
    value: index,
    limit: index < least ? least : most,
    text: `a viscosity index of ${index} is not one of an oil: expected ${least} to ${most}`,
  };
}

/**
 * Viscosity index of an oil from its viscosities at 40 °C (U) and 100 °C (Y). With L and H, the viscosities at 40 °C of
 * reference oils of index 0 and 100 that have the same Y: VI = 100 (L − U)/(L − H) for U ≥ H, else
 * VI = (10^N − 1)/0.00715 + 100, N = log(H/U)/log Y. Not rounded; the standards print whole numbers.
 *
 * @param viscosityAt40CM2PerS - kinematic viscosity at 40 °C, > 0 [m²/s]
 * @param viscosityAt100CM2PerS - kinematic viscosity at 100 °C, > 0; the index is defined from 2 mm²/s on [m²/s]
 * @returns viscosity index, below zero for an oil that thins more than the reference [1], or why there is none [-]
 * @throws RangeError if a viscosity is not above zero, or is over 20 m²/s
 *
 * Source: ASTM D2270 / ISO 2909, procedures A and B; table 1 read linearly, quadratics above 70 mm²/s.
 */
export function viscosityIndex(
  viscosityAt40CM2PerS: number,
  viscosityAt100CM2PerS: number,
): Outcome<number, OilRefusal> {
  requireViscosity('viscosityAt40CM2PerS', viscosityAt40CM2PerS);
  requireViscosity('viscosityAt100CM2PerS', viscosityAt100CM2PerS);
  const u = differenceFrom(viscosityAt40CM2PerS, MM2_PER_S);
  const y = differenceFrom(viscosityAt100CM2PerS, MM2_PER_S);
  if (y < LEAST_MM2_PER_S) return no(tooThin(y));
  if (viscosityAt100CM2PerS >= viscosityAt40CM2PerS) {
    return no({
      code: 'NOT_THINNER_WHEN_HOTTER',
      quantity: 'kinematic viscosity at 100 °C [m²/s]',
      value: viscosityAt100CM2PerS,
      limit: viscosityAt40CM2PerS,
      text: `an oil is thinner when hotter: ${y.toPrecision(4)} mm²/s at 100 °C against ${u.toPrecision(4)} mm²/s at 40 °C; are the two swapped?`,
    });
  }
  return yes(indexOf(u, y));
}

/**
 * Viscosity at 40 °C of an oil of given viscosity at 100 °C and index: the formulas of {@link viscosityIndex} solved for
 * U, U = L − VI (L − H)/100 up to an index of 100, U = H/Y^N, N = log₁₀(1 + 0.00715 (VI − 100)) beyond.
 *
 * @param viscosityAt100CM2PerS - kinematic viscosity at 100 °C, > 0; the index is defined from 2 mm²/s on [m²/s]
 * @param index - viscosity index, −100 to 400 [1]
 * @returns kinematic viscosity at 40 °C [m²/s], or why there is none [-]
 * @throws RangeError if the viscosity is not above zero or is over 20 m²/s, or the index is NaN
 *
 * Source: as viscosityIndex.
 */
export function viscosityAt40CFromIndex(viscosityAt100CM2PerS: number, index: number): Outcome<number, OilRefusal> {
  requireViscosity('viscosityAt100CM2PerS', viscosityAt100CM2PerS);
  const refusal = refuseIndex(index);
  if (refusal !== null) return no(refusal);
  const y = differenceFrom(viscosityAt100CM2PerS, MM2_PER_S);
  if (y < LEAST_MM2_PER_S) return no(tooThin(y));
  return yes(siDifferenceFrom(viscosityAt40C(y, index), MM2_PER_S));
}

/**
 * Viscosity at 100 °C of an oil of given viscosity at 40 °C and index: {@link viscosityIndex} solved for Y by halving,
 * down to double precision (the index rises with Y at fixed U; where the table gives way to the quadratics, at
 * 70 mm²/s, it has a step of a few hundredths, and the answer is the step).
 *
 * @param viscosityAt40CM2PerS - kinematic viscosity at 40 °C, > 0 [m²/s]
 * @param index - viscosity index, −100 to 400 [1]
 * @returns kinematic viscosity at 100 °C [m²/s], or why there is none [-]
 * @throws RangeError if the viscosity is not above zero or is over 20 m²/s, or the index is NaN
 *
 * Source: as viscosityIndex.
 */
export function viscosityAt100CFromIndex(viscosityAt40CM2PerS: number, index: number): Outcome<number, OilRefusal> {
  requireViscosity('viscosityAt40CM2PerS', viscosityAt40CM2PerS);
  const refusal = refuseIndex(index);
  if (refusal !== null) return no(refusal);
  const u = differenceFrom(viscosityAt40CM2PerS, MM2_PER_S);
  const thinnestU = viscosityAt40C(LEAST_MM2_PER_S, index);
  if (u < thinnestU) {
    return no({
      code: 'VISCOSITY_INDEX_NOT_DEFINED',
      quantity: 'kinematic viscosity at 40 °C [m²/s]',
      value: viscosityAt40CM2PerS,
      limit: siDifferenceFrom(thinnestU, MM2_PER_S),
      text: `with an index of ${index} an oil of ${u.toPrecision(3)} mm²/s at 40 °C would be below ${LEAST_MM2_PER_S} mm²/s at 100 °C, where the index is not defined`,
    });
  }
  let thinner = LEAST_MM2_PER_S;
  let thicker = u;
  for (let halving = 0; halving < MOST_HALVINGS; halving += 1) {
    const middle = (thinner + thicker) / 2;
    if (middle === thinner || middle === thicker) break;
    if (indexOf(u, middle) <= index) thinner = middle;
    else thicker = middle;
  }
  return yes(siDifferenceFrom(thinner, MM2_PER_S));
}
