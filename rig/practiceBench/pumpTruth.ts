import { z } from 'zod';
import { createGearMesh, PRACTICE_GEARS } from './gearMesh.ts';
import type { Oil } from './oil.ts';
import type { Random } from './random.ts';
import { signedRoot } from './signedRoot.ts';

export const practiceScenario = z.enum(['healthy', 'worn', 'unprimable']);
export type PracticeScenario = z.infer<typeof practiceScenario>;
export const PRACTICE_SCENARIOS = practiceScenario.options;

/** The pump as it really is, which the analysis never sees. Plain JSON. */
export const pumpTruth = z.strictObject({
  /** From the nominal geometry. */
  sweptVolumeM3PerRev: z.number(),
  /** What it really displaces at the reference temperature, tip drag included. */
  derivedCapacityAtReferenceM3PerRev: z.number(),
  laminarSlipAtReferenceM3: z.number(),
  orificeSlipM2: z.number(),
  /** Gap constant C of laminar leak-back of gas, G = C (p_d² − p²), G in pressure times volume. */
  gasGapM3PerSPerPa: z.number(),
  /** Share of each turn's displacement that comes back as gas at delivery pressure. */
  carryOverShare: z.number(),
});
export type PumpTruth = z.infer<typeof pumpTruth>;

/** Temperature at which the numbers of a {@link PumpTruth} hold [K]. */
const REFERENCE_TEMPERATURE_K = 318.15;
/** Gears and casing of cast iron and steel, 12e-6 1/K in length: three times that in volume [1/K]. */
const CAPACITY_GROWTH_PER_K = 3.6e-5;
/** The casing grows away from the gears: invented, small [1/K]. */
const LAMINAR_SLIP_GROWTH_PER_K = 1e-3;
/** Tip drag carries this share of the swept volume forward besides: invented, small [1]. */
const TIP_DRAG_SHARE = 1e-3;
const CARRY_OVER_SHARE = 0.004;
/** Manufacturing scatter of the swept volume, standard deviation and limit [1]. */
const CAPACITY_SCATTER = { sd: 0.002, limit: 0.005 };

const CONDITION: Readonly<Record<PracticeScenario, { laminarM3: number; orificeM2: number; gasGap: number }>> = {
  healthy: { laminarM3: 2e-12, orificeM2: 1.25e-7, gasGap: 1e-9 },
  worn: { laminarM3: 1.15e-11, orificeM2: 2.5e-7, gasGap: 7e-9 },
  unprimable: { laminarM3: 1.3e-11, orificeM2: 3e-7, gasGap: 8e-8 },
};

/**
 * Builds one pump: nominal geometry, then what manufacture and wear made of it.
 *
 * @param scenario - how worn it is [-]
 * @param random - where its scatter comes from [-]
 * @returns the pump's true numbers [SI]
 */
export function buildPump(scenario: PracticeScenario, random: Random): PumpTruth {
  const condition = CONDITION[scenario];
  const { sweptVolumeM3PerRev } = createGearMesh(PRACTICE_GEARS);
  const scatter = Math.max(
    -CAPACITY_SCATTER.limit,
    Math.min(CAPACITY_SCATTER.limit, CAPACITY_SCATTER.sd * random.normal()),
  );
  const around = (share: number): number => 1 + share * (2 * random.uniform() - 1);
  return {
    sweptVolumeM3PerRev,
    derivedCapacityAtReferenceM3PerRev: sweptVolumeM3PerRev * (1 + scatter + TIP_DRAG_SHARE),
    laminarSlipAtReferenceM3: condition.laminarM3 * around(0.05),
    orificeSlipM2: condition.orificeM2 * around(0.1),
    gasGapM3PerSPerPa: condition.gasGap * around(0.05),
    carryOverShare: CARRY_OVER_SHARE,
  };
}

/** Derived capacity at a temperature: the gears grow with it [m³/rev]. */
export function derivedCapacityM3PerRev(pump: PumpTruth, temperatureK: number): number {
  return (
    pump.derivedCapacityAtReferenceM3PerRev * (1 + CAPACITY_GROWTH_PER_K * (temperatureK - REFERENCE_TEMPERATURE_K))
  );
}

/** Laminar slip constant at a temperature: the gaps grow with it [m³]. */
export function laminarSlipM3(pump: PumpTruth, temperatureK: number): number {
  return pump.laminarSlipAtReferenceM3 * (1 + LAMINAR_SLIP_GROWTH_PER_K * (temperatureK - REFERENCE_TEMPERATURE_K));
}

/**
 * Noise-free delivered flow, mean over the ripple: V_i(T) n − C_l(T) Δp/µ(T) − C_t √(2Δp/ρ(T)).
 *
 * @param pump - the pump's true numbers [SI]
 * @param oil - its oil, a function of temperature [-]
 * @param at - speed [rev/s], delivery minus suction pressure [Pa], oil temperature at the inlet [K]
 * @returns flow at the outlet port [m³/s]
 *
 * Source: laminar slip, W. E. Wilson (1946), Trans. ASME 68; orifice slip, W. Schlösser (1961).
 */
export function trueFlowM3PerS(
  pump: PumpTruth,
  oil: Oil,
  at: { readonly speedRevPerS: number; readonly differentialPressurePa: number; readonly oilTemperatureK: number },
): number {
  const { dynamicViscosityPaS, densityKgPerM3 } = oil(at.oilTemperatureK);
  return (
    derivedCapacityM3PerRev(pump, at.oilTemperatureK) * at.speedRevPerS -
    (laminarSlipM3(pump, at.oilTemperatureK) * at.differentialPressurePa) / dynamicViscosityPaS -
    pump.orificeSlipM2 * Math.sqrt(2 / densityKgPerM3) * signedRoot(at.differentialPressurePa)
  );
}
