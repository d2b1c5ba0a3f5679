import { scatterSourceId } from '../../analysis/delivery/fitSlip.ts';
import { flowResidual } from '../../analysis/delivery/flowResidual.ts';
import { weightedLeastSquares } from '../../analysis/delivery/leastSquares.ts';
import { type Coefficients, certainPoint, lawRegressors } from '../../analysis/delivery/slipLaw.ts';
import type { LawTerm, SlipLaw } from '../../analysis/result.ts';
import type { HoldState } from '../../analysis/steady/holdState.ts';
import { combine, exactly, type Uncertain } from '../../analysis/uncertainty/source.ts';
import { accepted } from '../support/accepted.ts';

export type OracleLaw = Pick<SlipLaw, 'coefficients' | 'uncertain'>;

/** What the practice pump really loses: laminar gaps and orifices, nothing with n Δp. */
const TRUE_TERMS = ['derivedCapacityM3PerRev', 'laminarSlipM3', 'orificeSlipM2'] as const satisfies readonly LawTerm[];

/**
 * The law as one would fit it who knew which terms it has: the same holds, weights and propagation, the true terms
 * alone.
 */
export function oracleLaw(allHolds: readonly HoldState[], weights: readonly number[]): OracleLaw {
  const holds = allHolds.filter(({ leftOut }) => leftOut === null);
  const design = holds.map((hold) => {
    const regressors = lawRegressors(certainPoint(hold));
    return TRUE_TERMS.map((term) => regressors[term]);
  });
  const flows = holds.map(({ inletFlowM3PerS }) => inletFlowM3PerS.value);
  const solved = accepted(weightedLeastSquares(design, flows, weights));
  const [derivedCapacityM3PerRev = 0, laminarSlipM3 = 0, orificeSlipM2 = 0] = solved.coefficients;
  const coefficients: Coefficients = {
    derivedCapacityM3PerRev,
    laminarSlipM3,
    orificeSlipM2,
    speedPressureSlipM3PerPa: 0,
  };
  const residuals = holds.map((hold): Uncertain => {
    const { value, sensitivities } = flowResidual(hold, coefficients);
    return { value, sensitivities: { ...sensitivities, [scatterSourceId(hold)]: 1 } };
  });
  const uncertainOf = (term: (typeof TRUE_TERMS)[number]): Uncertain =>
    combine(
      coefficients[term],
      residuals.map((input, index) => ({
        input,
        derivative: solved.pseudoInverse[TRUE_TERMS.indexOf(term)]?.[index] ?? 0,
      })),
    );
  return {
    coefficients,
    uncertain: {
      derivedCapacityM3PerRev: uncertainOf('derivedCapacityM3PerRev'),
      laminarSlipM3: uncertainOf('laminarSlipM3'),
      orificeSlipM2: uncertainOf('orificeSlipM2'),
      speedPressureSlipM3PerPa: exactly(0),
    },
  };
}
