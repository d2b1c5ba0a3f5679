import { no, type Outcome, yes } from '../outcome.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { varianceBetweenHolds, withinScatter } from './betweenHolds.ts';
import { weightedLeastSquares } from './leastSquares.ts';

/** q_drain = C_d Δp/µ: oil that leaves the pump by its drain line. */
export type DrainLaw = {
  /** C_d, its sign left free: an offset of the drain meter shows [m³]. */
  readonly drainCoefficientM3: Uncertain;
  readonly sources: readonly Source[];
  readonly residualsM3PerS: readonly number[];
  readonly holdNumbers: readonly number[];
};

export type DrainRefusal =
  | { readonly code: 'NO_DRAIN_CHANNEL'; readonly text: string }
  | { readonly code: 'TOO_FEW_DRAIN_HOLDS'; readonly got: number; readonly needed: number; readonly text: string };

const LEAST_HOLDS = 2;

type DrainHold = { readonly hold: HoldState; readonly drain: Uncertain; readonly regressorPerS: number };

/** ∂(drain − C Δp/µ)/∂s of a hold. */
function drainResidual({ hold, drain, regressorPerS }: DrainHold, coefficientM3: number): Uncertain {
  const { differentialPressurePa, dynamicViscosityPaS } = hold;
  return combine(drain.value - coefficientM3 * regressorPerS, [
    { input: drain, derivative: 1 },
    { input: differentialPressurePa, derivative: -coefficientM3 / dynamicViscosityPaS.value },
    { input: dynamicViscosityPaS, derivative: (coefficientM3 * regressorPerS) / dynamicViscosityPaS.value },
  ]);
}

/**
 * Fits the external drain, one laminar coefficient through zero: q_drain = C_d Δp/µ. The case stands near suction
 * pressure, so that the pressure difference of the pump drives the drain; oil that the case takes beyond that is in the
 * residuals and widens the interval.
 *
 * @param holds - averaged holds, none of them left out; those without a drain reading are passed over [n holds]
 * @returns C_d with its sensitivities [m³], or why there is none
 *
 * Source: laminar leakage, Wilson (1946); weights and scatter between holds as in fitSlip.
 */
export function fitDrain(holds: readonly HoldState[]): Outcome<DrainLaw, DrainRefusal> {
  const drained = holds.flatMap((hold): DrainHold[] =>
    hold.externalDrainM3PerS === null
      ? []
      : [
          {
            hold,
            drain: hold.externalDrainM3PerS,
            regressorPerS: hold.differentialPressurePa.value / hold.dynamicViscosityPaS.value,
          },
        ],
  );
  if (drained.length === 0) {
    return no({
      code: 'NO_DRAIN_CHANNEL',
      text: 'No hold has a drain reading: all that leaves the inlet is taken to reach the outlet.',
    });
  }
  const fitAt = (weights: readonly number[]) => {
    const fit = weightedLeastSquares(
      drained.map(({ regressorPerS }) => [regressorPerS]),
      drained.map(({ drain }) => drain.value),
      weights,
    );
    if (!fit.ok) return null;
    const coefficientM3 = fit.value.coefficients[0] ?? 0;
    return {
      fit: fit.value,
      residuals: drained.map(({ drain, regressorPerS }) => drain.value - coefficientM3 * regressorPerS),
    };
  };
  let fitted = fitAt(drained.map(() => 1));
  const within = drained.map((entry) =>
    withinScatter(entry.hold, drainResidual(entry, fitted?.fit.coefficients[0] ?? 0)),
  );
  const variances = within.map(({ variance }) => variance);
  const between = varianceBetweenHolds(variances, fitAt);
  fitted = fitAt(variances.map((variance) => 1 / (variance + between)));
  if (fitted === null) {
    return no({
      code: 'TOO_FEW_DRAIN_HOLDS',
      got: drained.length,
      needed: LEAST_HOLDS,
      text: `The drain was read in ${drained.length} hold${drained.length === 1 ? '' : 's'} under pressure; its law takes ${LEAST_HOLDS} or more. Read it at two pressures.`,
    });
  }
  const { fit, residuals } = fitted;
  const [coefficientM3 = 0] = fit.coefficients;
  const sourceId = ({ hold }: DrainHold): string => `hold.${hold.number}.drainFit`;
  return yes({
    drainCoefficientM3: combine(
      coefficientM3,
      drained.map((entry, index) => {
        const residual = drainResidual(entry, coefficientM3);
        const input = { ...residual, sensitivities: { ...residual.sensitivities, [sourceId(entry)]: 1 } };
        return { input, derivative: fit.pseudoInverse[0]?.[index] ?? 0 };
      }),
    ),
    sources: drained.map((entry) => ({
      id: sourceId(entry),
      label: 'scatter of the drain about its law',
      kind: 'random',
      standardUncertainty: Math.sqrt(between),
      degreesOfFreedom: fit.degreesOfFreedom,
      shape: 'normal',
      pooledAs: 'drainFit.scatter',
    })),
    residualsM3PerS: residuals,
    holdNumbers: drained.map(({ hold }) => hold.number),
  });
}
