import { fittedFlow } from '../delivery/slipLaw.ts';
import { speedGroups } from '../delivery/speedGroups.ts';
import type { RunResult, SlipLaw } from '../result.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import type { CertificateHold, LawBand } from './deliverySchema.ts';

/** Points of a drawn law from a group's lowest to its highest pressure difference, and no further. */
const STEPS = 12;

/**
 * The fitted law at the speeds that were run, with its expanded uncertainty, as it is drawn.
 *
 * @param law - the fitted law [SI]
 * @param holds - of its run [n holds]
 * @param sources - every source that the law is sensitive to [-]
 * @returns a curve for each speed, slowest first [rev/s, Pa, m³/s]
 */
export function lawBands(
  law: Pick<SlipLaw, 'coefficients' | 'uncertain'>,
  holds: readonly CertificateHold[],
  sources: RunResult['sources'],
): LawBand[] {
  return speedGroups(holds).map((group) => {
    const lowestPa = group.holds[0]?.differentialPressurePa.value ?? 0;
    const highestPa = group.holds.at(-1)?.differentialPressurePa.value ?? lowestPa;
    const points = Array.from({ length: STEPS + 1 }, (_, step) => {
      const differentialPressurePa = lowestPa + ((highestPa - lowestPa) * step) / STEPS;
      const flow = stateUncertainty(fittedFlow(law, { ...group, differentialPressurePa }), sources);
      return {
        differentialPressurePa,
        flowM3PerS: flow.value,
        expandedUncertaintyM3PerS: flow.expandedUncertainty,
      };
    });
    return { speedRevPerS: group.speedRevPerS, points };
  });
}
