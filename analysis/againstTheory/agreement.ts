import { combine, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';

/** Two values of one thing held against each other. */
export type Agreement = {
  readonly measured: Stated;
  readonly expected: Stated;
  /** Measured less expected; a source that both share has cancelled or added as it should. */
  readonly difference: Stated;
  /** Measured over expected [1]; null where zero is expected. */
  readonly ratio: Stated | null;
  /** |difference| ≤ its expanded uncertainty. */
  readonly agrees: boolean;
};

/**
 * Holds a measured value against an expected one: they agree where the difference is no larger than its own expanded
 * uncertainty. Sources that both share count once, with what is left of them in the difference.
 *
 * @param measured - with its sources [any unit]
 * @param expected - with its sources [unit of measured]
 * @param state - states a value with all sources of both [-]
 * @returns both, their difference and ratio, and whether they agree [unit of measured]
 *
 * Source: JCGM 100:2008, 5.2.2; |d| ≤ U as in ISO/IEC 17043 (E_n ≤ 1), from memory.
 */
export function agreementOf(
  measured: Uncertain,
  expected: Uncertain,
  state: (uncertain: Uncertain) => Stated,
): Agreement {
  const difference = state(
    combine(measured.value - expected.value, [
      { input: measured, derivative: 1 },
      { input: expected, derivative: -1 },
    ]),
  );
  const ratio = measured.value / expected.value;
  return {
    measured: state(measured),
    expected: state(expected),
    difference,
    ratio:
      expected.value === 0
        ? null
        : state(
            combine(ratio, [
              { input: measured, derivative: 1 / expected.value },
              { input: expected, derivative: -ratio / expected.value },
            ]),
          ),
    agrees: Math.abs(difference.value) <= difference.expandedUncertainty,
  };
}
