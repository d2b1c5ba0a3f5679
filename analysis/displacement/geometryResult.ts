import type { Measured } from '../records/fields.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { differenceFrom, unitOf } from '../units.ts';

/** What a pump's geometry says of a turn of its shaft. */
export type SweptVolume = {
  /** V_g [m³/rev], sensitive to sources that begin with 'geometry.'. */
  readonly sweptVolume: Uncertain;
  readonly sources: readonly Source[];
  /** Ideal flow ripple, (max − min)/mean [1]; null where the type has none computed. */
  readonly flowRipple: number | null;
  /** In words: what it rests on. */
  readonly basis: string;
};

/** Why a geometry cannot be computed: which quantity, its value and the limit, in SI. */
export type GeometryRefusal = {
  readonly code:
    | 'CONTACT_RATIO_BELOW_ONE'
    | 'TIP_BELOW_PITCH'
    | 'TIP_INTERFERENCE'
    | 'POINTED_TOOTH'
    | 'UNDERCUT_LOBES'
    | 'CAVITY_WITHOUT_CORE'
    | 'GROOVES_OVERLAP'
    | 'NEGATIVE_CLEARANCE'
    | 'PISTONS_OVERLAP'
    | 'PROFILE_NOT_NOMINAL'
    | 'RING_WITHOUT_LIFT'
    | 'ROTOR_OUTSIDE_RING'
    | 'SCREWS_DO_NOT_MESH'
    | 'SWASH_TOO_STEEP'
    | 'TOO_FEW_REPEATS'
    | 'VANES_TOO_THICK'
    | 'VISCOUS_DRAG_PUMP';
  readonly quantity: string;
  readonly value: number;
  readonly limit: number;
  readonly text: string;
};

/** A measured quantity that the swept volume is computed from. */
export type VolumeInput = {
  /** Becomes the source `geometry.<id>`. */
  readonly id: string;
  readonly label: string;
  readonly measured: Measured;
  /** ∂V_g/∂x at the values measured [m³/rev per unit of x]. */
  readonly derivative: number;
};

/** What the formula itself may be off by: a rectangular error of this half-width, relative to the volume [1]. */
export type ModelSpread = { readonly label: string; readonly halfWidth: number };

/**
 * A swept volume with the uncertainty of each measurement and of the model, by JCGM 100.
 *
 * @param value - V_g at the values measured [m³/rev]
 * @param inputs - what it was computed from, with its partial derivatives [-]
 * @param model - spread of the formula; null where it is exact [-]
 * @param words - ripple and basis [-]
 * @returns V_g with its sources [m³/rev]
 *
 * Source: JCGM 100:2008, 5.1.2; rectangular half-width a → u = a/√3, 4.3.7.
 */
export function sweptVolumeFrom(
  value: number,
  inputs: readonly VolumeInput[],
  model: ModelSpread | null,
  words: Pick<SweptVolume, 'flowRipple' | 'basis'>,
): SweptVolume {
  const common = { kind: 'calibration', degreesOfFreedom: null, pooledAs: null } as const;
  const sensitivities: Record<string, number> = {};
  const sources: Source[] = [];
  for (const { id, label, measured, derivative } of inputs) {
    sensitivities[`geometry.${id}`] = derivative;
    const { standardUncertainty } = measured;
    sources.push({ ...common, id: `geometry.${id}`, label, standardUncertainty, shape: 'normal' });
  }
  if (model !== null) {
    sensitivities['geometry.model'] = value;
    const standardUncertainty = model.halfWidth / Math.sqrt(3);
    sources.push({ ...common, id: 'geometry.model', label: model.label, standardUncertainty, shape: 'rectangular' });
  }
  return { sweptVolume: { value, sensitivities }, sources, ...words };
}

/**
 * A length in the words of a refusal.
 *
 * @param lengthM - any length [m]
 * @returns in millimetres to a hundredth [-]
 *
 * @example lengthInMm(0.0421) // '42.10 mm'
 */
export function lengthInMm(lengthM: number): string {
  return `${differenceFrom(lengthM, unitOf('mm')).toFixed(2)} mm`;
}
