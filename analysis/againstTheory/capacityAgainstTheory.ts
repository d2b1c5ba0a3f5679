import type { PredictedSlip } from '../slip/predictSlip.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { type Agreement, agreementOf } from './agreement.ts';

export type CapacityAgainstTheory = Agreement & {
  /** What moving walls carry beyond V_g, by the strip sheet [m³/rev]; null: no strip sheet, and V_i is held against V_g alone. */
  readonly predictedDrag: Stated | null;
  readonly inWords: string;
};

/**
 * Derived capacity against geometry: V_i against V_g and the drag per turn that the strip sheet predicts. Walls that move
 * carry oil through their gaps in proportion to speed, so that it stands in V_i and not in the slip.
 *
 * @param derivedCapacity - V_i of the fitted law [m³/rev]
 * @param sweptVolume - V_g of the geometry [m³/rev]
 * @param predicted - slip and drag by the strip sheet at the run's temperature; null: none [m³/rev]
 * @param state - states a value with the sources of run, geometry and strip sheet [-]
 * @returns both, and whether they agree [m³/rev]
 *
 * Source: V_i = V_g + drag derived here from the one-dimensional flow in a gap with a moving wall; agreement as agreementOf.
 */
export function capacityAgainstTheory(
  derivedCapacity: Uncertain,
  sweptVolume: Uncertain,
  predicted: Pick<PredictedSlip, 'dragM3PerRev'> | null,
  state: (uncertain: Uncertain) => Stated,
): CapacityAgainstTheory {
  const expected =
    predicted === null
      ? sweptVolume
      : combine(sweptVolume.value + predicted.dragM3PerRev.value, [
          { input: sweptVolume, derivative: 1 },
          { input: predicted.dragM3PerRev, derivative: 1 },
        ]);
  const agreement = agreementOf(derivedCapacity, expected, state);
  const basis =
    predicted === null
      ? 'the swept volume alone, since no strip sheet tells the drag'
      : 'swept volume and predicted drag';
  return {
    ...agreement,
    predictedDrag: predicted === null ? null : state(predicted.dragM3PerRev),
    inWords: agreement.agrees
      ? `The derived capacity agrees with ${basis}.`
      : `The derived capacity does not agree with ${basis}: the difference is larger than its expanded uncertainty. Look at the dimensions in the pump record, at the flow meter's calibration, and for air in the oil.`,
  };
}
