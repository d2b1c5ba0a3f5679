/** Halvings of the interval in which the rate lies: to the last digit of a double. */
const HALVINGS = 60;

/** P(X ≥ k) of a binomial of n trials, summed from the larger end so that nothing cancels. */
function atLeast(k: number, n: number, rate: number): number {
  let term = rate ** n;
  let sum = term;
  for (let successes = n; successes > k; successes -= 1) {
    term *= (successes / (n - successes + 1)) * ((1 - rate) / rate);
    sum += term;
  }
  return sum;
}

/**
 * Success rate that so many successes prove, one-sided: the rate at which as many or more would come about with probability
 * 1 − confidence. Where all succeeded that is (1 − confidence)^(1/n).
 *
 * @param successes - whole number, zero to trials [1]
 * @param trials - whole number above zero [1]
 * @param confidence - strictly between 0 and 1 [1]
 * @returns the rate is at least this; zero where nothing succeeded [1]
 * @throws RangeError if successes or trials are no such numbers
 *
 * Source: Clopper and Pearson (1934), Biometrika 26, 404; NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.2.
 *
 * @example provenSuccessRate(2, 2, 0.75) // 0.5: half of a half squared
 */
export function provenSuccessRate(successes: number, trials: number, confidence = 0.95): number {
  if (!(Number.isInteger(trials) && trials > 0))
    throw new RangeError(`trials: ${trials} is not a whole number above zero`);
  if (!(Number.isInteger(successes) && successes >= 0 && successes <= trials)) {
    throw new RangeError(`successes: ${successes} is not a whole number from 0 to ${trials}`);
  }
  if (successes === 0) return 0;
  const risk = 1 - confidence;
  if (successes === trials) return risk ** (1 / trials);
  let [low, high] = [0, successes / trials];
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (atLeast(successes, trials, middle) > risk) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
