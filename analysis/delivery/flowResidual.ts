import type { HoldState } from '../steady/holdState.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import { type Coefficients, flowAtUncertainPoint } from './slipLaw.ts';

/** Measured minus fitted inlet flow of a hold, with its sensitivity to everything measured in that hold [m³/s]. */
export function flowResidual(hold: HoldState, coefficients: Coefficients): Uncertain {
  const fitted = flowAtUncertainPoint(coefficients, hold);
  return combine(hold.inletFlowM3PerS.value - fitted.value, [
    { input: hold.inletFlowM3PerS, derivative: 1 },
    { input: fitted, derivative: -1 },
  ]);
}
