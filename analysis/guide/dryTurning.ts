import type { WetnessClass } from '../records/fields.ts';
import type { PumpRecord } from '../records/pumpRecord.ts';

/** Longest dry turning of a metal pump, oiled and bone dry: house limits from common practice, no source [s]. */
const LONGEST_OILED_S = 30;
const LONGEST_BONE_DRY_S = 10;

/** What decides whether a pump may be turned dry. */
type DryPart = Pick<PumpRecord, 'name' | 'type' | 'mayRunDry' | 'shaftEnds'>;

/**
 * How long a pump may turn dry in all: ten seconds in class W0, thirty where its gaps were oiled or greased.
 *
 * @param wetness - how it was prepared [-]
 * @returns house limit, common practice without a source [s]
 *
 * @example longestDryTurningS('W0') // 10
 */
export function longestDryTurningS(wetness: WetnessClass): number {
  return wetness === 'W0' ? LONGEST_BONE_DRY_S : LONGEST_OILED_S;
}

/**
 * Why a pump must not be turned dry: its record forbids it, a rubber stator, or a shaft seal whose faces only oil parts.
 *
 * @param pump - name, type, shaft ends, and what its record says [-]
 * @returns the reason as a sentence; null: it may be turned dry for a while [-]
 */
export function whyNeverDry(pump: DryPart): string | null {
  const { name, type, mayRunDry, shaftEnds } = pump;
  if (!mayRunDry) return `${name} must never run dry, so its record says.`;
  if (type === 'progressing cavity') {
    return `${name} must never run dry: the stator of a progressing cavity pump burns on its rotor without oil.`;
  }
  const faceSeal = shaftEnds.find(({ sealedBy }) => sealedBy === 'face seal');
  if (faceSeal === undefined) return null;
  return `${name} must never run dry: the face seal at its shaft (${faceSeal.where}) needs oil between its faces.`;
}
