import type { BenchChannel } from '../records/benchRecord.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../units.ts';

/** Id of the error of a transmitter's height over the inlet [m]. */
export function tappingHeightSourceId(channel: BenchChannel): string {
  return `${channel.channel}.tappingHeight`;
}

/**
 * A transmitter's pressure brought to the height of the pump's inlet: p_inlet = p_transmitter + ρ g h, h the height of the
 * transmitter over the inlet, its tube full of oil. A tube full of air weighs about 12 Pa a metre at atmospheric pressure
 * (1.2 kg/m³) and is left out of account, so such a channel passes unchanged; so does one at the inlet's own height.
 *
 * @param pressurePa - at the transmitter [Pa]
 * @param channel - its channel, with height and filling of the tube [-]
 * @param oilDensity - of the oil in the tube, which has the room's temperature rather than the pump's [kg/m³]
 * @returns pressure at the height of the inlet, with its sensitivity to `<channel>.tappingHeight` [Pa]
 *
 * Source: hydrostatics; g₀ by NIST SP 811 (2008), B.8: local gravity differs by 0.3 % at most.
 */
export function atInletHeight(pressurePa: Uncertain, channel: BenchChannel, oilDensity: Uncertain): Uncertain {
  const { tapping } = channel;
  if (tapping === null || tapping.tubeFilledWith === 'air') return pressurePa;
  const heightM = tapping.heightOverInletM.value;
  const weightPaPerM = oilDensity.value * STANDARD_GRAVITY_M_PER_S2;
  return combine(pressurePa.value + weightPaPerM * heightM, [
    { input: pressurePa, derivative: 1 },
    { input: oilDensity, derivative: STANDARD_GRAVITY_M_PER_S2 * heightM },
    { input: { value: 0, sensitivities: { [tappingHeightSourceId(channel)]: 1 } }, derivative: weightPaPerM },
  ]);
}
