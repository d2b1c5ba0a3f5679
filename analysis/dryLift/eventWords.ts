import { formatStated } from '../formatStated.ts';
import type { StartEventName, StartEventResult, StartEventsResult } from '../resultSchema/startEventsSchema.ts';
import { unitOf } from '../units.ts';

/** What a fitter calls the events of a dry start, in the order in which they happen. */
export const EVENT_WORDS = {
  motorStart: 'motor starts',
  firstSuction: 'first suction',
  oilAtInlet: 'oil at the inlet',
  oilAtOutlet: 'oil at the outlet',
  sustainedDelivery: 'delivers for good',
} as const satisfies Readonly<Record<StartEventName, string>>;

const EVENT_NAMES: readonly StartEventName[] = [
  'motorStart',
  'firstSuction',
  'oilAtInlet',
  'oilAtOutlet',
  'sustainedDelivery',
];

const SIGN_WORDS = {
  speed: 'speed',
  suctionPressure: 'suction pressure',
  deliveryPressure: 'delivery pressure',
  flow: 'flow',
} as const;

/** An event in words, ready to be set in a line or a row. */
export type EventLine = { readonly name: StartEventName; readonly event: StartEventResult; readonly words: string };

function wordsOf(event: StartEventResult): string {
  if (!event.seen) return `not seen. ${event.reason.text}`;
  const { value, expandedUncertainty } = formatStated(event.atS, unitOf('s'));
  return `${value} ± ${expandedUncertainty} s, by the ${SIGN_WORDS[event.from]}`;
}

/** The five events with their times, in the order in which they happen; none where the start could not be read. */
export function eventLines(events: StartEventsResult | null): readonly EventLine[] {
  if (events === null) return [];
  return EVENT_NAMES.map((name) => ({ name, event: events[name], words: wordsOf(events[name]) }));
}

/** When an event was; null: not seen [s]. */
export function seenAtS(events: StartEventsResult | null, name: StartEventName): number | null {
  const event = events?.[name];
  return event?.seen === true ? event.atS.value : null;
}
