/** Batches timed; the median of them is what is told. */
const BATCHES = 41;

/** A batch lasts this long at the least, so that the clock's own step does not show [ms]. */
const LEAST_BATCH_MS = 2;

/** Results are added up here, so that no compiler may leave the work out. */
let kept = 0;

function batchMs(work: () => number, calls: number): number {
  const begunAtMs = performance.now();
  for (let call = 0; call < calls; call += 1) kept += work();
  return performance.now() - begunAtMs;
}

/** Median time of one call [µs], over batches long enough for the clock; the first batches warm the compiler up. */
export function medianUs(work: () => number): number {
  let calls = 1;
  while (batchMs(work, calls) < LEAST_BATCH_MS) calls *= 2;
  const perCallUs = Array.from({ length: BATCHES }, () => (1e3 * batchMs(work, calls)) / calls).sort((a, b) => a - b);
  if (Number.isNaN(kept)) throw new Error('a timed function gave NaN');
  return perCallUs[(BATCHES - 1) / 2] ?? Number.NaN;
}

/** A loop that is the same in every version of the program: 1000 square roots and sines. */
export function referenceLoop(): number {
  let sum = 0;
  for (let index = 1; index <= 1000; index += 1) sum += Math.sqrt(index) * Math.sin(index);
  return sum;
}
