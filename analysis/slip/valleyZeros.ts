/** A function of a clearance; null where the clearance is impossible. */
export type ClearanceFunction = (clearanceM: number) => number | null;

/** How many steps the first look takes. */
const LOOKS = 64;
const HALVINGS = 60;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The place between two where a claim turns from false to true. */
function turningPoint(isTrue: (place: number) => boolean, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (low + high) / 2;
    if (isTrue(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Where a function with one valley is least. */
function lowestBetween(f: (place: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let step = 0; step < HALVINGS; step += 1) {
    const [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (f(left) < f(right)) high = right;
    else low = left;
  }
  return (low + high) / 2;
}

/** Places between two clearances, spread so that a cubic law climbs evenly between them. */
function looks(fromM: number, toM: number): readonly number[] {
  return Array.from({ length: LOOKS + 1 }, (_, index) => fromM + (toM - fromM) * (index / LOOKS) ** 3);
}

/**
 * Clearances for which a function has a value: a gear that leans needs room, warm parts must not bind, a wide bush lets the
 * gear touch the casing.
 *
 * @param f - possible in one stretch [-]
 * @param widestM - end of the search [m]
 * @returns ends of the stretch [m]; null where no place that was looked at is possible [-]
 *
 * @example possibleRange((c) => (c < 2e-5 ? null : c), 1e-3)?.fromM.toFixed(9) // '0.000020000'
 */
export function possibleRange(
  f: ClearanceFunction,
  widestM: number,
): { readonly fromM: number; readonly toM: number } | null {
  const isPossible = (place: number): boolean => f(place) !== null;
  const places = looks(0, widestM);
  const inside = places.find(isPossible);
  const last = places.findLast(isPossible);
  if (inside === undefined || last === undefined) return null;
  return {
    fromM: isPossible(0) ? 0 : turningPoint(isPossible, 0, inside),
    // Mirrored, so that the end that is kept is a possible one.
    toM: isPossible(widestM)
      ? widestM
      : widestM - turningPoint((back) => isPossible(widestM - back), 0, widestM - last),
  };
}

/**
 * Zeros of a function that falls to one valley and rises from it (slip less drag over a clearance: −D h + k h³), or only rises.
 *
 * @param f - possible from fromM to toM [-]
 * @param fromM - least clearance [m]
 * @param toM - widest clearance [m]
 * @returns none, one or two zeros, the smaller first [m]
 */
export function valleyZeros(f: ClearanceFunction, fromM: number, toM: number): readonly number[] {
  const height = (place: number): number => f(place) ?? 0;
  const places = looks(fromM, toM);
  const heights = places.map(height);
  const lowest = heights.indexOf(Math.min(...heights));
  const valley = lowest === 0 ? fromM : lowestBetween(height, places[lowest - 1] ?? fromM, places[lowest + 1] ?? toM);
  if (height(valley) > 0) return [];
  const zeros: number[] = [];
  if (height(fromM) > 0) zeros.push(turningPoint((place) => height(place) <= 0, fromM, valley));
  if (height(toM) > 0) zeros.push(turningPoint((place) => height(place) > 0, valley, toM));
  return zeros;
}
