import { describe, expect, it } from 'vitest';
import type { ClearanceChange } from '../../../analysis/efficiency/clearanceChange.ts';
import { type ClearancesAt, type HottestOil, hottestOil } from '../../../analysis/efficiency/hottestOil.ts';
import { slowestSpeed } from '../../../analysis/efficiency/slowestSpeed.ts';
import { spokenFlow } from '../../../analysis/efficiency/spokenLaw.ts';
import { oilState } from '../../../analysis/oil/oilState.ts';
import { no, yes } from '../../../analysis/outcome.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { exactEvidence, inventedLawRun } from './inventedLawRun.ts';

const TEMPERATURE_K = 318.15;
const DUTY = { differentialPressurePa: 3e5, atLeastM3PerS: 1.2e-4 };

const viscosityPaS = (temperatureK: number): number => oilState(INVENTED_VG46, temperatureK).dynamicViscosityPaS;

describe('the slowest speed that holds a pressure', () => {
  it('turns just fast enough for the slip and the flow that is asked', () => {
    // By hand: n = (q + C_l Δp/µ + C_t √(2Δp/ρ))/V_i.
    const { densityKgPerM3 } = oilState(INVENTED_VG46, TEMPERATURE_K);
    const slip = (2.2e-12 * 3e5) / viscosityPaS(TEMPERATURE_K) + 5e-8 * Math.sqrt(6e5 / densityKgPerM3);
    const speedFor = (atLeastM3PerS: number): number =>
      accepted(slowestSpeed(exactEvidence(), { ...DUTY, atLeastM3PerS }, TEMPERATURE_K)).speedRevPerS.value;
    expectRelative(speedFor(0), slip / 13.9e-6, 1e-12);
    expectRelative(speedFor(1.2e-4), (1.2e-4 + slip) / 13.9e-6, 1e-12);
  });

  it('delivers there what was asked, slip in proportion to speed, drain, compression and clearances and all', () => {
    const evidence = {
      ...exactEvidence({ speedPressureSlipM3PerPa: 4e-13 }),
      outlet: { drain: { drainCoefficientM3: exactly(2e-13) }, bulkModulusPa: exactly(1.5e9) },
    };
    const factor = exactly(1.4);
    const { speedRevPerS } = accepted(slowestSpeed(evidence, DUTY, 333.15, factor));
    const at = { speedRevPerS: speedRevPerS.value, differentialPressurePa: 3e5, oilTemperatureK: 333.15 };
    expectRelative(spokenFlow(evidence, at, factor).value, DUTY.atLeastM3PerS, 1e-9);
  });

  it('cancels the gain of the flow meter where pressure alone is held, and lets it through in the flow asked', () => {
    // By hand: with every coefficient true to 1 − g, n = q/((1 − g) V) + slip/V: ∂n/∂g = q/V at g = 0.
    const { evidence, fit } = inventedLawRun(61, 0);
    const gainOf = (atLeastM3PerS: number): number =>
      accepted(slowestSpeed(evidence, { ...DUTY, atLeastM3PerS }, TEMPERATURE_K)).speedRevPerS.sensitivities[
        'flow.gain'
      ] ?? Number.NaN;
    const byHand = 1.2e-4 / fit.coefficients.derivedCapacityM3PerRev;
    expect(Math.abs(gainOf(0))).toBeLessThan(1e-6 * byHand);
    expectRelative(gainOf(1.2e-4), byHand, 1e-6);
  });

  it('says when it lies below the holds', () => {
    const { beyond } = accepted(slowestSpeed(exactEvidence(), { ...DUTY, atLeastM3PerS: 0 }, TEMPERATURE_K));
    expect(beyond).toEqual(['speed']);
    expect(accepted(slowestSpeed(exactEvidence(), DUTY, TEMPERATURE_K)).beyond).toEqual([]);
  });

  it('refuses a pump whose slip grows as fast as its capacity, and a duty that is none', () => {
    // V_i − C_np Δp = 13.9e-6 − 5e-11 · 3e5 = −1.1e-6.
    const leaking = exactEvidence({ speedPressureSlipM3PerPa: 5e-11 });
    expect(slowestSpeed(leaking, DUTY, TEMPERATURE_K)).toMatchObject({ ok: false, reason: { code: 'NO_SPEED_HOLDS' } });
    expect(() => slowestSpeed(exactEvidence(), { ...DUTY, atLeastM3PerS: -1 }, TEMPERATURE_K)).toThrow(/atLeastM3PerS/);
    expect(() => slowestSpeed(exactEvidence(), { ...DUTY, differentialPressurePa: Number.NaN }, TEMPERATURE_K)).toThrow(
      /differentialPressurePa/,
    );
  });
});

const UNCHANGED: ClearanceChange = { factor: exactly(1), sources: [], basis: 'assumed', inWords: '' };
const unchanged: ClearancesAt = () => yes(UNCHANGED);

/** Laminar slip alone, so that the temperature follows from one viscosity. */
const LAMINAR = exactEvidence({ orificeSlipM2: 0 });

/** Flow that is left at a temperature and 15 rev/s: V n − C_l Δp/µ. */
const leftAt = (temperatureK: number): number => 2.085e-4 - (2.2e-12 * 3e5) / viscosityPaS(temperatureK);

function hottest(atLeastM3PerS: number, clearancesAt: ClearancesAt = unchanged): HottestOil {
  return hottestOil(LAMINAR, { differentialPressurePa: 3e5, atLeastM3PerS }, 15, clearancesAt);
}

function limitOf(found: HottestOil) {
  if (found.kind !== 'limit') throw new Error(`expected a limit, got ${found.kind}`);
  return found;
}

describe('how hot the oil may get', () => {
  it('is where the thinned oil leaves just the flow that is asked', () => {
    const { temperatureK, beyond } = limitOf(hottest(leftAt(351.4)));
    expectRelative(temperatureK.value, 351.4, 1e-9);
    expect(beyond).toEqual(['temperature', 'viscosity']);
    expect(limitOf(hottest(leftAt(319))).beyond).toEqual([]);
  });

  it('comes sooner where the clearances grow', () => {
    // Gaps that let 1 % more through for each kelvin above 318.15: C_l (1 + 0.01 (T − 318.15)).
    const growing: ClearancesAt = (temperatureK) =>
      yes({ ...UNCHANGED, factor: exactly(1 + 0.01 * (temperatureK - 318.15)) });
    const asked = 2.085e-4 - (2.085e-4 - leftAt(345)) * (1 + 0.01 * (345 - 318.15));
    expectRelative(limitOf(hottest(asked, growing)).temperatureK.value, 345, 1e-9);
    expect(limitOf(hottest(asked)).temperatureK.value).toBeGreaterThan(345);
  });

  it('is uncertain by the viscosity over its fall with temperature', () => {
    // Implicit: µ(T)(1 + e) is given, so that ∂T/∂e = −µ/(dµ/dT).
    const { sensitivities } = limitOf(hottest(leftAt(350))).temperatureK;
    const slope = (viscosityPaS(350.1) - viscosityPaS(349.9)) / 0.2;
    expectRelative(sensitivities['oil.viscosity'] ?? 0, -viscosityPaS(350) / slope, 1e-4);
  });

  it('never comes, or has come at the coldest, and says up to and from where', () => {
    const tight = { ...LAMINAR, law: exactEvidence({ orificeSlipM2: 0, laminarSlipM3: 1e-15 }).law };
    const never = hottestOil(tight, { differentialPressurePa: 3e5, atLeastM3PerS: 1e-4 }, 15, unchanged);
    if (never.kind !== 'neverFails') throw new Error(never.kind);
    // The density's law ends at 150 °C; a step of a kelvin short of it.
    expectRelative(never.upToK, 422.15, 1e-9);
    // The theoretical flow itself is less than asked; looked at from the oil's lower point, 40 °C.
    expect(hottest(2.1e-4)).toEqual({ kind: 'alwaysFails', fromK: 313.15 });
  });

  it('is not known beyond where parts bind', () => {
    const reason = { code: 'NOTHING_LEAKS', text: 'invented' } as const;
    const binding: ClearancesAt = (temperatureK) => (temperatureK > 330 ? no(reason) : yes(UNCHANGED));
    const found = hottest(leftAt(350), binding);
    if (found.kind !== 'partsBind') throw new Error(found.kind);
    expect(found.reason).toEqual(reason);
    // The first kelvin step from 313.15 that lies above 330.
    expectRelative(found.atK, 330.15, 1e-12);
  });

  it('is not asked of a pump at rest', () => {
    expect(() => hottestOil(LAMINAR, DUTY, 0, unchanged)).toThrow(/speedRevPerS/);
  });
});
