import { no, type Outcome, yes } from '../outcome.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { inMillimetres, type StripRefusal } from './stripRefusal.ts';

/** A clearance computed from measurements, with the sources it is sensitive to. */
export type Clearance = { readonly clearanceM: Uncertain; readonly sources: readonly Source[] };

/** A measurement that takes part in a clearance, in its sum counted `times` so often. */
export type ClearanceTerm = {
  /** Becomes the source `strip.<id>`. */
  readonly id: string;
  readonly label: string;
  readonly measured: { readonly value: number; readonly standardUncertainty: number };
  readonly times: number;
};

/**
 * A clearance as the sum of measurements, c = Σ times × length, with the uncertainty of each by its own source.
 *
 * @param quantity - what it is called, for a refusal [-]
 * @param terms - lengths with their signs or halves [m]
 * @returns clearance with sensitivities to `strip.*` sources [m], or that it is negative [-]
 *
 * Source: JCGM 100:2008, 5.1.2.
 */
export function clearanceFrom(quantity: string, terms: readonly ClearanceTerm[]): Outcome<Clearance, StripRefusal> {
  const value = terms.reduce((sum, { measured, times }) => sum + times * measured.value, 0);
  if (value < 0) {
    return no({
      code: 'NEGATIVE_CLEARANCE',
      quantity: `${quantity} [m]`,
      value,
      limit: 0,
      text: `${quantity} comes out at ${inMillimetres(value)}; parts that went together cannot be larger than their room: measure again`,
    });
  }
  const sensitivities: Record<string, number> = {};
  const sources: Source[] = [];
  for (const { id, label, measured, times } of terms) {
    sensitivities[`strip.${id}`] = times;
    sources.push({
      id: `strip.${id}`,
      label,
      kind: 'calibration',
      standardUncertainty: measured.standardUncertainty,
      degreesOfFreedom: null,
      shape: 'normal',
      pooledAs: null,
    });
  }
  return yes({ clearanceM: { value, sensitivities }, sources });
}
