/** Nodes and weights of Gauss and Laguerre's rule of four points: Abramowitz and Stegun (1964), table 25.9. */
const NODES: readonly (readonly [node: number, weight: number])[] = [
  [0.322547689619, 0.603154104342],
  [1.745761101158, 0.357418692438],
  [4.536620296921, 0.038887908515],
  [9.395070912301, 0.000539294705561],
];

/**
 * What an instrument of one lag shows of a course: p_shown(t) = ∫₀^∞ e^(−u) p(t − τ u) du, by Gauss and Laguerre.
 *
 * @param sample - the course at rising times [s → any unit]
 * @param timesS - when it is read [n, s]
 * @param lagS - τ, zero or more [s]
 * @returns what is shown at those times [n, unit of the course]
 *
 * Source: response of a first-order lag; quadrature exact to the seventh power of time.
 */
export function laggedCourse(
  sample: (timesS: Float64Array) => Float64Array,
  timesS: readonly number[],
  lagS: number,
): Float64Array {
  if (lagS === 0) return sample(Float64Array.from(timesS));
  const shown = new Float64Array(timesS.length);
  const earlierS = new Float64Array(timesS.length);
  for (const [node, weight] of NODES) {
    for (let index = 0; index < shown.length; index += 1) earlierS[index] = (timesS[index] ?? Number.NaN) - lagS * node;
    const values = sample(earlierS);
    for (let index = 0; index < shown.length; index += 1) {
      shown[index] = (shown[index] ?? 0) + weight * (values[index] ?? Number.NaN);
    }
  }
  return shown;
}
