import { describe, expect, it } from 'vitest';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { measuredSlip } from '../../../analysis/delivery/measuredSlip.ts';
import { negativeSlip } from '../../../analysis/delivery/negativeSlip.ts';
import type { Finding } from '../../../analysis/result.ts';
import { type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

function found(laminarM3: number, seed: number, calibrations: readonly Source[] = []): readonly Finding[] {
  const next = normal(seed);
  const holds = [9, 15, 18.75]
    .flatMap((n) => [0.6e5, 1.8e5, 3e5, 3.9e5].map((dp) => ({ n, dp })))
    .map(({ n, dp }, index) =>
      syntheticHold(
        index + 1,
        {
          speedRevPerS: n,
          differentialPressurePa: dp,
          dynamicViscosityPaS: 0.04,
          densityKgPerM3: 860,
          flowM3PerS: 14e-6 * n - (laminarM3 * dp) / 0.04 + 2e-7 * next(),
        },
        2e-7,
        Object.fromEntries(calibrations.map(({ id }) => ['flowM3PerS', { [id]: -1 }])),
      ),
    );
  const fit = accepted(fitSlip(holds));
  const table = sourceTable([...calibrations, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
  return negativeSlip(fit, holds, (uncertain) => stateUncertainty(uncertain, table));
}

describe('negativeSlip', () => {
  it('is silent on a pump that slips (seed 3)', () => {
    expect(found(2e-12, 3)).toEqual([]);
  });

  it('flags flow that rises with pressure, and names the holds (seed 4)', () => {
    // Fed: 1e-5 m³/s more at 2 bar, fifty times the scatter. At zero slip the fit has V_i n between the holds, so that those
    // at high pressure draw in more than it.
    const findings = found(-2e-12, 4);
    expect(findings.every(({ code, severity }) => code === 'NEGATIVE_SLIP' && severity === 'warning')).toBe(true);
    expect(findings.at(-1)?.text).toMatch(/hold 12 \(/);
    expect(findings.at(-1)?.text).toMatch(/zero or scale error of the flow meter/);
  });

  it('has slip of a hold as by hand, and the gain of the meter in it cancels against the capacity', () => {
    // V_i n − q = 14e-6 × 15 − 2e-4 = 1e-5; a meter gain that moves V_i by −V_i and q by −q moves slip by −slip.
    const oil = { dynamicViscosityPaS: 0.04, densityKgPerM3: 860 };
    const hold = syntheticHold(1, { speedRevPerS: 15, differentialPressurePa: 1e5, flowM3PerS: 2e-4, ...oil }, 1e-7, {
      flowM3PerS: { gain: -2e-4 },
    });
    const slip = measuredSlip(hold, { value: 14e-6, sensitivities: { gain: -14e-6 } });
    expectRelative(slip.value, 1e-5, 1e-9);
    expectRelative(slip.sensitivities.gain ?? Number.NaN, -1e-5, 1e-9);
  });
});
