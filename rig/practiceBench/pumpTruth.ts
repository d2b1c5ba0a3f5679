import { z } from 'zod';
import { createDisplacer } from './displacer.ts';
import type { Oil } from './oil.ts';
import { type PumpKind, pumpKind } from './pumpKind.ts';
import type { Random } from './random.ts';
import { signedRoot } from './signedRoot.ts';

export const practiceScenario = z.enum(['healthy', 'worn', 'unprimable']);
export type PracticeScenario = z.infer<typeof practiceScenario>;
export const PRACTICE_SCENARIOS = practiceScenario.options;

/** The pump as it really is, which the analysis never sees. Plain JSON. */
export const pumpTruth = z.strictObject({
  kind: pumpKind,
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
/** Manufacturing scatter of the swept volume, standard deviation and limit [1]. */
const CAPACITY_SCATTER = { sd: 0.002, limit: 0.005 };

const CONDITION: Readonly<Record<PracticeScenario, { laminarM3: number; orificeM2: number; gasGap: number }>> = {
  healthy: { laminarM3: 2e-12, orificeM2: 1.25e-7, gasGap: 1e-9 },
  worn: { laminarM3: 1.15e-11, orificeM2: 2.5e-7, gasGap: 7e-9 },
  unprimable: { laminarM3: 1.3e-11, orificeM2: 3e-7, gasGap: 8e-8 },
};

/**
 * How the others differ from the external gears, per swept volume: leaks and gas gap as factors [1], carry-over [1], and the
 * share that walls carry forward through their gaps besides [1]: invented, small. The gears' gaps are wide, 0.15 mm at the
 * tips and 0.19 mm of end float: a tip that moves at u past a casing at h carries u h/2 a metre of width, which for two gears
 * of 21 mm radius and 20 mm width is 2 · 2π · 21 mm · 20 mm · 0.15 mm/2 = 396 mm³ a turn, 2.8 % of 13.88 cm³.
 */
const MAKE: Readonly<Record<PumpKind, { leak: number; gasGap: number; carryOver: number; drag: number }>> = {
  externalGear: { leak: 1, gasGap: 1, carryOver: 0.004, drag: 0.028 },
  screw: { leak: 0.9, gasGap: 1.4, carryOver: 0.001, drag: 1e-3 },
  internalGear: { leak: 0.8, gasGap: 0.7, carryOver: 0.008, drag: 1e-3 },
};

/**
 * Builds one pump: nominal geometry, then what manufacture and wear made of it.
 *
 * @param scenario - how worn it is [-]
 * @param random - where its scatter comes from [-]
 * @param kind - which of the practice pumps; the external gears unless said [-]
 * @returns the pump's true numbers [SI]
 */
export function buildPump(scenario: PracticeScenario, random: Random, kind: PumpKind = 'externalGear'): PumpTruth {
  const condition = CONDITION[scenario];
  const make = MAKE[kind];
  const { sweptVolumeM3PerRev } = createDisplacer(kind);
  const size = sweptVolumeM3PerRev / createDisplacer('externalGear').sweptVolumeM3PerRev;
  const scatter = Math.max(
    -CAPACITY_SCATTER.limit,
    Math.min(CAPACITY_SCATTER.limit, CAPACITY_SCATTER.sd * random.normal()),
  );
  const around = (share: number): number => 1 + share * (2 * random.uniform() - 1);
  return {
    kind,
    sweptVolumeM3PerRev,
    derivedCapacityAtReferenceM3PerRev: sweptVolumeM3PerRev * (1 + scatter + make.drag),
    laminarSlipAtReferenceM3: size * make.leak * condition.laminarM3 * around(0.05),
    orificeSlipM2: size * make.leak * condition.orificeM2 * around(0.1),
    gasGapM3PerSPerPa: size * make.gasGap * condition.gasGap * around(0.05),
    carryOverShare: make.carryOver,
  };
}

/** What taking the pump off the bench and mounting it again changes, standard deviations: invented, small [1]. */
const MOUNTING_SCATTER = { capacity: 3e-4, slip: 0.02 } as const;

/**
 * The same pump mounted anew: pipe strain and bolts move its gaps a little.
 *
 * @param pump - the pump's true numbers [SI]
 * @param random - where the change comes from [-]
 * @returns its true numbers in this mounting [SI]
 */
export function mountPump(pump: PumpTruth, random: Random): PumpTruth {
  const slipFactor = 1 + MOUNTING_SCATTER.slip * random.normal();
  return {
    ...pump,
    derivedCapacityAtReferenceM3PerRev:
      pump.derivedCapacityAtReferenceM3PerRev * (1 + MOUNTING_SCATTER.capacity * random.normal()),
    laminarSlipAtReferenceM3: pump.laminarSlipAtReferenceM3 * slipFactor,
    orificeSlipM2: pump.orificeSlipM2 * slipFactor,
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
 * Noise-free flow, mean over the ripple, at the density of the inlet (what the pump draws in): V_i(T) n − C_l(T) Δp/µ(T) − C_t √(2Δp/ρ(T)).
 *
 * @param pump - the pump's true numbers [SI]
 * @param oil - its oil, a function of temperature [-]
 * @param at - speed [rev/s], delivery minus suction pressure [Pa], oil temperature at the inlet [K]
 * @returns flow drawn in [m³/s]
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
