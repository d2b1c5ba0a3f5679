import type { Finding, LawTerm } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { SlipFit } from './fitSlip.ts';
import { measuredSlip } from './measuredSlip.ts';

/** What a negative coefficient looks like on the bench, and what to suspect first. */
const TERM_WORDS: Readonly<Record<Exclude<LawTerm, 'derivedCapacityM3PerRev'>, string>> = {
  laminarSlipM3: 'with rising pressure the pump seems to deliver more',
  orificeSlipM2: 'slip seems to rise faster than pressure',
  speedPressureSlipM3PerPa: 'under pressure the pump seems to deliver more a turn the faster it runs',
};

const CAUSES =
  'No clearance does that. Look for a zero or scale error of the flow meter, air in the oil (compressed at high pressure, it reads as slip at low), incomplete filling, a speed signal that slips under load, or pressure ports exchanged.';

/**
 * Slip that is negative by more than its expanded uncertainty: coefficients that the fit held at zero although the holds
 * say otherwise, and holds under pressure that draw in more than capacity × speed.
 *
 * @param fit - the fitted law [-]
 * @param holds - the holds it was fitted to [n holds]
 * @param state - states a value with the sources of the run and of the fit [-]
 * @returns a warning a coefficient and one for all such holds; none where slip is sound [-]
 */
export function negativeSlip(
  fit: SlipFit,
  holds: readonly HoldState[],
  state: (uncertain: Uncertain) => Stated,
): readonly Finding[] {
  const isNegative = (uncertain: Uncertain): boolean =>
    uncertain.value < 0 && -uncertain.value > state(uncertain).expandedUncertainty;
  const findings = fit.terms.flatMap((term): Finding[] => {
    if (term === 'derivedCapacityM3PerRev' || !isNegative(fit.unconstrained[term])) return [];
    return [
      {
        code: 'NEGATIVE_SLIP',
        severity: 'warning',
        text: `The holds ask for negative slip, beyond its uncertainty: ${TERM_WORDS[term]}. The law holds that coefficient at zero. ${CAUSES}`,
      },
    ];
  });
  const negative = holds.flatMap((hold) => {
    const slip = measuredSlip(hold, fit.uncertain.derivedCapacityM3PerRev);
    return hold.differentialPressurePa.value > 0 && isNegative(slip) ? [{ hold, slip }] : [];
  });
  if (negative.length > 0) {
    const words = negative.map(({ hold, slip }) => {
      const litresPerMin = differenceFrom(-slip.value, unitOf('l/min'));
      return `hold ${hold.number} (${litresPerMin.toPrecision(2)} l/min)`;
    });
    findings.push({
      code: 'NEGATIVE_SLIP',
      severity: 'warning',
      text: `More oil than capacity × speed, beyond the uncertainty, under pressure: ${words.join(', ')}. ${CAUSES}`,
    });
  }
  return findings;
}
