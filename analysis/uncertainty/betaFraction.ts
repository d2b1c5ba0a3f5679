const MOST_TERMS = 10_000;
const TINY = 1e-300;

function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}

/**
 * Continued fraction of the incomplete beta function: I_x(a, b) is x^a (1 − x)^b/(a B(a, b)) times it. It converges fast
 * where x is below about (a + 1)/(a + b + 2).
 *
 * @param x - upper limit, 0 to 1 [1]
 * @param a - first parameter, > 0 [1]
 * @param b - second parameter, > 0 [1]
 * @returns the fraction [1]
 *
 * Source: Abramowitz and Stegun (1964), 26.5.8, by Lentz's method; Numerical Recipes, 6.4.
 */
export function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= MOST_TERMS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return fraction;
}
