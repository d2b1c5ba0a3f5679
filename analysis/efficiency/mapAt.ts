import { refusalOf, yes } from '../outcome.ts';
import type { Fitted, SlipLaw } from '../result.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import { efficiencyMap, type MapAxis } from './efficiencyMap.ts';
import type { LawSpeaker } from './lawSpeaker.ts';

/** Steps of a map along each axis, where nobody asks for others. */
const MAP_STEPS = 21;

/** The slowest speed and lowest pressure of a map, as shares of the largest [1]. */
const MAP_FROM_SHARE = 0.05;

const NO_PRESSURE_RISE =
  'In no hold did the pump raise the pressure: there is nothing to draw a map of. Close the valve in steps.';

function axisTo(largest: number, count: number): MapAxis {
  return { from: MAP_FROM_SHARE * largest, to: largest, count };
}

/** Axes of a map that holds the measured range. */
function mapAxes(range: SlipLaw['range'], steps: number): { speedRevPerS: MapAxis; differentialPressurePa: MapAxis } {
  return {
    speedRevPerS: axisTo(range.speedRevPerS[1], steps),
    differentialPressurePa: axisTo(range.differentialPressurePa[1], steps),
  };
}

/**
 * The efficiency map of a law at one temperature.
 *
 * @param speaker - the law, ready to be asked, for the run's oil or another [-]
 * @param sweptVolume - V_g [m³/rev]
 * @param oilTemperatureK - of the oil at the pump inlet [K]
 * @param steps - along each axis, 2 or more [1]
 * @returns the map over the measured speeds and pressures, or why the clearances cannot be had there [-]
 * @throws RangeError if the temperature is not one an oil can have
 */
export function mapAt(
  speaker: LawSpeaker,
  sweptVolume: Uncertain,
  oilTemperatureK: number,
  steps = MAP_STEPS,
): Fitted['map'] {
  const highestPa = speaker.evidence.law.range.differentialPressurePa[1];
  if (!(highestPa > 0)) return refusalOf({ code: 'NO_PRESSURE_RISE', text: NO_PRESSURE_RISE });
  const change = speaker.clearancesAt(oilTemperatureK);
  if (!change.ok) return refusalOf(change.reason);
  const request = { oilTemperatureK, ...mapAxes(speaker.evidence.law.range, steps) };
  return yes(
    efficiencyMap(speaker.evidence, sweptVolume, change.value, request, speaker.sourcesWith(change.value.sources)),
  );
}
