import type { Source, Uncertain } from '../../uncertainty/source.ts';

/** What an event was read from. */
export type EventSign = 'speed' | 'suctionPressure' | 'deliveryPressure' | 'flow';

/** Why an event was not seen. */
export type EventUnseen = {
  readonly code: 'CHANNEL_MISSING' | 'DID_NOT_HAPPEN' | 'NOT_TOLD';
  readonly text: string;
};

/** An event of a dry start in the run's elapsed time, or why there is none. */
export type StartEvent =
  | { readonly seen: true; readonly atS: Uncertain; readonly from: EventSign }
  | { readonly seen: false; readonly why: EventUnseen };

/** An event with the sources of its uncertainty, before they are put in one table. */
export type EventWithSources = { readonly event: StartEvent; readonly sources: readonly Source[] };

/**
 * An event that was not seen.
 *
 * @param code - stable [-]
 * @param text - what a fitter reads [-]
 * @returns the event without sources [-]
 */
export function unseen(code: EventUnseen['code'], text: string): EventWithSources {
  return { event: { seen: false, why: { code, text } }, sources: [] };
}

/**
 * A source of timing that lies anywhere within half its width.
 *
 * @param id - of the source [-]
 * @param label - what a person calls it [-]
 * @param halfWidthS - half width of its rectangle [s]
 * @param kind - 'random': another in every start; 'calibration': the same in all [-]
 * @returns the source [s]
 */
export function timingSource(id: string, label: string, halfWidthS: number, kind: Source['kind']): Source {
  return {
    id,
    label,
    kind,
    standardUncertainty: halfWidthS / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
    pooledAs: null,
  };
}

/**
 * A time that every one of some sources moves by as much as itself.
 *
 * @param valueS - the time [s]
 * @param sources - of timing [s]
 * @returns the time with its sensitivities [s]
 */
export function movedBy(valueS: number, sources: readonly Source[]): Uncertain {
  return { value: valueS, sensitivities: Object.fromEntries(sources.map(({ id }) => [id, 1])) };
}
