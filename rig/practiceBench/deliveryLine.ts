import type { OilState } from './oil.ts';
import { signedRoot, signedRootSlope } from './signedRoot.ts';

/** Cd A of the delivery valve when fully open: invented, 0.15 bar at 12 l/min [m²]. */
const VALVE_OPEN_M2 = 3.4e-5;
/** The hose gives way to pressure and so smooths the tooth ripple: invented [m³/Pa]. */
const COMPLIANCE_M3_PER_PA = 5e-12;
const RELIEF_GAUGE_PA = 8e5;
const RELIEF_M3_PER_S_PER_PA = 8e-9;

/** What the pump pushes into the line and what it loses, as the line's pressure sees it. */
export type Feed = {
  readonly sweptM3PerS: number;
  readonly suctionPressurePa: number;
  readonly laminarSlipM3: number;
  readonly orificeSlipM2: number;
};

export function slipFlowM3PerS(feed: Feed, deliveryPressurePa: number, oil: OilState): number {
  const differentialPressurePa = deliveryPressurePa - feed.suctionPressurePa;
  return (
    (feed.laminarSlipM3 * differentialPressurePa) / oil.dynamicViscosityPaS +
    feed.orificeSlipM2 * Math.sqrt(2 / oil.densityKgPerM3) * signedRoot(differentialPressurePa)
  );
}

/** Flow through the delivery valve, which the meter sees [m³/s]. */
export function valveFlowM3PerS(opening: number, gaugePa: number, oil: OilState): number {
  return opening * VALVE_OPEN_M2 * Math.sqrt(2 / oil.densityKgPerM3) * signedRoot(gaugePa);
}

/**
 * Pressure in the full delivery line a step later: compliance × dp/dt = pump − slip − valve − relief valve, implicit in p.
 *
 * @param pressurePa - absolute, at the start of the step [Pa]
 * @param feed - displacement [m³/s], suction pressure [Pa], slip constants [m³, m²]
 * @param opening - of the delivery valve, above 0 up to 1 [1]
 * @param atmospherePa - pressure behind the valve [Pa]
 * @param oil - viscosity [Pa s] and density [kg/m³]
 * @param stepS - step [s]
 * @returns absolute pressure at the end of the step [Pa]
 *
 * Source: continuity; the equation rises steadily with p, so Newton's steps need no guard.
 */
export function advanceDeliveryPressure(
  pressurePa: number,
  feed: Feed,
  opening: number,
  atmospherePa: number,
  oil: OilState,
  stepS: number,
): number {
  const root = Math.sqrt(2 / oil.densityKgPerM3);
  const gain = stepS / COMPLIANCE_M3_PER_PA;
  let pa = pressurePa;
  for (let turn = 0; turn < 8; turn++) {
    const reliefPa = Math.max(0, pa - atmospherePa - RELIEF_GAUGE_PA);
    const outM3PerS =
      slipFlowM3PerS(feed, pa, oil) +
      valveFlowM3PerS(opening, pa - atmospherePa, oil) +
      RELIEF_M3_PER_S_PER_PA * reliefPa;
    const slope =
      feed.laminarSlipM3 / oil.dynamicViscosityPaS +
      feed.orificeSlipM2 * root * signedRootSlope(pa - feed.suctionPressurePa) +
      opening * VALVE_OPEN_M2 * root * signedRootSlope(pa - atmospherePa) +
      (reliefPa > 0 ? RELIEF_M3_PER_S_PER_PA : 0);
    const correctionPa = (pa - pressurePa - gain * (feed.sweptM3PerS - outM3PerS)) / (1 + gain * slope);
    pa -= correctionPa;
    if (Math.abs(correctionPa) < 0.1) break;
  }
  return pa;
}
