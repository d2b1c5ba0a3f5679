import { STANDARD_GRAVITY_M_PER_S2 } from '../../analysis/units.ts';
import { GAS_ENTRY_SHARE, strayGasPaM3PerS } from './drySide.ts';
import { gasLeakPaM3PerS } from './gasLeak.ts';
import type { OilState } from './oil.ts';
import type { PracticePlant } from './plant.ts';
import { derivedCapacityM3PerRev, type PumpTruth } from './pumpTruth.ts';

export type DryBalance = {
  /** Absolute pressure at which as much gas comes back as is taken. */
  readonly pressurePa: number;
  /** Column of the bench's oil that stands under it. */
  readonly limitM: number;
};

/**
 * Where a dry pump's suction comes to rest: p V_i n = leak-back + carry-over + what strays in, by bisection. Films are
 * taken as they are in the end; the delivery side is open. Blanked, a hole in the pipe does not count.
 *
 * @param pump - the pump's true numbers [SI]
 * @param plant - what is planted [-]
 * @param at - speed [rev/s], temperature [K], barometer [Pa], oil, whether the suction is blanked at the flange
 * @returns balance pressure [Pa] and the column that it carries [m]
 *
 * Source: gas balance of the dry side at rest; derived here.
 */
export function dryBalance(
  pump: PumpTruth,
  plant: PracticePlant,
  at: {
    readonly speedRevPerS: number;
    readonly temperatureK: number;
    readonly atmospherePa: number;
    readonly oil: OilState;
    readonly isBlanked: boolean;
  },
): DryBalance {
  const { atmospherePa } = at;
  const intakeM3PerS =
    plant.isShaftNotDriven === true || plant.isReversed === true
      ? 0
      : derivedCapacityM3PerRev(pump, at.temperatureK) * at.speedRevPerS;
  const gap = { constantM3PerSPerPa: pump.gasGapM3PerSPerPa, entryShare: GAS_ENTRY_SHARE };
  const carryOverShare = plant.carryOverShare ?? pump.carryOverShare;
  const netPaM3PerS = (suctionPressurePa: number): number =>
    (suctionPressurePa - carryOverShare * atmospherePa) * intakeM3PerS -
    gasLeakPaM3PerS(gap, atmospherePa, suctionPressurePa) -
    strayGasPaM3PerS(plant, { atmospherePa, deliveryPressurePa: atmospherePa, suctionPressurePa }, !at.isBlanked);
  let lowPa = 0;
  let highPa = atmospherePa;
  if (netPaM3PerS(highPa) <= 0) lowPa = highPa;
  for (let turn = 0; turn < 60; turn++) {
    const middlePa = (lowPa + highPa) / 2;
    if (netPaM3PerS(middlePa) > 0) highPa = middlePa;
    else lowPa = middlePa;
  }
  const pressurePa = (lowPa + highPa) / 2;
  const airShare = plant.strainerAirShare ?? 0;
  const weightPaPerM = (1 - airShare) * at.oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2;
  return { pressurePa, limitM: (atmospherePa - pressurePa) / weightPaPerM };
}
