import { CHANNELS, type ChannelName } from '../channels.ts';
import { printRpm } from '../formatStated.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { DeliveryPoint } from './deliveryGuide.ts';
import type { ReliefPhase, Stillness, SuctionPoint } from './guideState.ts';

type StillnessByChannel = Readonly<Partial<Record<ChannelName, Stillness>>>;

function inBarGauge(gaugePressurePa: number): string {
  return `${differenceFrom(gaugePressurePa, unitOf('bar(g)')).toFixed(2)} bar(g)`;
}

function inBarAbsolute(absolutePressurePa: number): string {
  return `${differenceFrom(absolutePressurePa, unitOf('bar(a)')).toFixed(2)} bar(a)`;
}

/** What still moves, or that nothing does. */
function waitWords(stillness: StillnessByChannel): string {
  const moving = Object.entries(CHANNELS)
    .filter(([channel]) => {
      const word = Object.entries(stillness).find(([name]) => name === channel)?.[1];
      return word !== undefined && word !== 'steady';
    })
    .map(([, { label }]) => label);
  return moving.length === 0 ? 'all stand still: hold it there' : `still moving: ${moving.join(', ')}`;
}

/** What to set next, and what still moves. */
export function deliverySentence(point: DeliveryPoint, stillness: StillnessByChannel): string {
  const pressure = inBarGauge(point.deliveryGaugePressurePa);
  return `Set ${printRpm(point.speedRevPerS)} r/min and ${pressure} at the delivery; ${waitWords(stillness)}.`;
}

/** What to set next in a suction run: the throttle first, then the delivery valve, so that the pressure difference stays. */
export function suctionSentence(point: SuctionPoint, gaugePressurePa: number, stillness: StillnessByChannel): string {
  const throttle =
    point.suctionPressurePa === null
      ? `Suction fully open, ${printRpm(point.speedRevPerS)} r/min`
      : `Throttle the suction to ${inBarAbsolute(point.suctionPressurePa)} at the inlet`;
  return `${throttle}, then set ${inBarGauge(gaugePressurePa)} at the delivery; ${waitWords(stillness)}.`;
}

/** The suction run is over; how deep it went. */
export function suctionEndSentence(holdCount: number, deepestPa: number | null): string {
  if (deepestPa === null) return 'No hold was taken: stop the run, and look at speed and valves.';
  const holds = holdCount === 1 ? 'One hold is' : `${holdCount} holds are`;
  return `${holds} taken, down to ${inBarAbsolute(deepestPa)} at the inlet: open the suction, let the motor run down and stop the run.`;
}

/** How a relief run stands. */
export function reliefSentence(phase: ReliefPhase, speedRevPerS: number, ceilingGaugePa: number): string {
  switch (phase) {
    case 'open':
      return `Valve fully open: set ${printRpm(speedRevPerS)} r/min and leave it alone until all stand still.`;
    case 'closing':
      return `Close the valve slowly and evenly, until next to no flow is left; no higher than ${inBarGauge(ceilingGaugePa)}.`;
    case 'opening':
      return 'Open the valve again as slowly, all the way.';
    case 'over':
      return 'Up and down are recorded: let the motor run down and stop the run.';
  }
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
  longestS: number,
): string {
  switch (state.phase) {
    case 'atRest':
      return `Pump dry, delivery open and vented: start the motor to ${printRpm(state.speedRevPerS)} r/min and watch for oil, ${longestS} s at the most.`;
    case 'watching':
      return `Watching for oil: ${state.turningS.toFixed(0)} s of ${longestS} s that this pump may turn dry.`;
    case 'primed':
      return 'Oil has arrived and stays: stop the run.';
    case 'timeOut':
      return `No oil after ${longestS} s: stop the motor now, then the run. Dry turning beyond this harms the pump.`;
  }
}
