import { holeLeakPaM3PerS } from './gasLeak.ts';
import type { PracticePlant } from './plant.ts';

/** Gas in the oil that a pump draws in. */
export type InletGas = {
  /** Share of the inlet volume that is gas [1]. */
  readonly share: (at: {
    readonly suctionPressurePa: number;
    readonly sweptM3PerS: number;
    readonly wetForS: number;
  }) => number;
  readonly advance: (isTurning: boolean, stepS: number) => void;
};

/** Free air rises out of an oil at rest, and is churned in again: invented [s]. */
const SETTLE_S = 60;
const CHURN_S = 40;
/** Dissolved air comes out below this pressure; share by volume that an oil holds at atmospheric pressure [Pa], [1]. */
const RELEASE_BELOW_PA = 6e4;
const DISSOLVED_SHARE = 0.09;
/** Shares of gas in and between the bursts of foam: invented [1]. */
const FOAM_FULL = 0.15;
const FOAM_EMPTY = 0.97;
const LEAST_PRESSURE_PA = 500;
const LARGEST_SHARE = 0.98;

/** Volume of gas to a volume of oil at a pressure, from its share at atmospheric pressure. */
function ratioAt(shareAtAtmosphere: number, atmospherePa: number, pressurePa: number): number {
  return ((shareAtAtmosphere / (1 - shareAtAtmosphere)) * atmospherePa) / pressurePa;
}

/**
 * Gas that takes up room in the gears: free air, air from strainer and pipe leak, dissolved air that comes out at low
 * pressure (Henry and Boyle), and bursts of foam behind a dry start. It is gone from the oil before the meter.
 *
 * @param plant - what is planted [-]
 * @param atmospherePa - barometer [Pa]
 * @returns share of the inlet volume [1] and how the free air settles
 */
export function createInletGas(plant: PracticePlant, atmospherePa: number): InletGas {
  const plantedShare = plant.freeAirShare ?? 0;
  let freeShare = plantedShare;
  return {
    share({ suctionPressurePa, sweptM3PerS, wetForS }) {
      const { foam } = plant;
      if (foam !== undefined && wetForS < foam.burstCount * foam.periodS) {
        return (wetForS / foam.periodS) % 1 < 0.5 ? FOAM_FULL : FOAM_EMPTY;
      }
      const pressurePa = Math.max(LEAST_PRESSURE_PA, suctionPressurePa);
      const leakPaM3PerS = holeLeakPaM3PerS(plant.pipeLeakM2 ?? 0, atmospherePa, pressurePa);
      const ratio =
        ratioAt(freeShare, atmospherePa, pressurePa) +
        ratioAt(plant.strainerAirShare ?? 0, atmospherePa, pressurePa) +
        (sweptM3PerS > 0 ? leakPaM3PerS / pressurePa / sweptM3PerS : 0) +
        (DISSOLVED_SHARE * Math.max(0, RELEASE_BELOW_PA - pressurePa)) / pressurePa;
      return Math.min(LARGEST_SHARE, ratio / (1 + ratio));
    },
    advance(isTurning, stepS) {
      freeShare += isTurning ? ((plantedShare - freeShare) * stepS) / CHURN_S : (-freeShare * stepS) / SETTLE_S;
    },
  };
}
