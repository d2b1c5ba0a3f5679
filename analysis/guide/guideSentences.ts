import { CHANNELS, type ChannelName } from '../channels.ts';
import { printRpm } from '../formatStated.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { DeliveryPoint } from './deliveryGuide.ts';
import type { Stillness } from './guideState.ts';

/** Longest dry turning of an oiled metal pump: a house limit from common practice, no source [s]. */
export const LONGEST_DRY_TURNING_S = 30;

/** What to set next, and what still moves. */
export function deliverySentence(
  point: DeliveryPoint,
  stillness: Readonly<Partial<Record<ChannelName, Stillness>>>,
): string {
  const bar = differenceFrom(point.deliveryGaugePressurePa, unitOf('bar(g)')).toFixed(2);
  const moving = Object.entries(CHANNELS)
    .filter(([channel]) => {
      const word = Object.entries(stillness).find(([name]) => name === channel)?.[1];
      return word !== undefined && word !== 'steady';
    })
    .map(([, { label }]) => label);
  const wait = moving.length === 0 ? 'all stand still: hold it there' : `still moving: ${moving.join(', ')}`;
  return `Set ${printRpm(point.speedRevPerS)} r/min and ${bar} bar(g) at the delivery; ${wait}.`;
}

/** All set points are behind. */
export function deliveryEndSentence(pointCount: number, givenUp: number): string {
  const taken =
    givenUp === 0
      ? `All ${pointCount} points are taken`
      : `${pointCount - givenUp} of ${pointCount} points are taken, the others were out of the pump's reach`;
  return `${taken}: let the motor run down and stop the run.`;
}

/** How a dry start stands. */
export function dryLiftSentence(
  state:
    | { readonly phase: 'atRest'; readonly speedRevPerS: number }
    | { readonly phase: 'watching'; readonly turningS: number }
    | { readonly phase: 'primed'; readonly sustainedDeliveryS: number }
    | { readonly phase: 'timeOut' },
): string {
  switch (state.phase) {
    case 'atRest':
      return `Pump dry, delivery open and vented: start the motor to ${printRpm(state.speedRevPerS)} r/min and watch for oil, ${LONGEST_DRY_TURNING_S} s at the most.`;
    case 'watching':
      return `Watching for oil: ${state.turningS.toFixed(0)} s of ${LONGEST_DRY_TURNING_S} s that this pump may turn dry.`;
    case 'primed':
      return 'Oil has arrived and stays: stop the run.';
    case 'timeOut':
      return `No oil after ${LONGEST_DRY_TURNING_S} s: stop the motor now, then the run. Dry turning beyond this harms the pump.`;
  }
}
