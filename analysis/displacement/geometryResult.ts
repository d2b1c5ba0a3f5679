import type { Source, Uncertain } from '../uncertainty/source.ts';

/** What a pump's geometry says of a turn of its shaft. */
export type SweptVolume = {
  /** V_g [m³/rev], sensitive to sources that begin with 'geometry.'. */
  readonly sweptVolume: Uncertain;
  readonly sources: readonly Source[];
  /** Ideal flow ripple [1]; null where the type has none computed. */
  readonly flowRipple: number | null;
  /** In words: what it rests on. */
  readonly basis: string;
};

export type GeometryRefusal = {
  readonly code: 'CONTACT_RATIO_BELOW_ONE' | 'TIP_BELOW_PITCH';
  readonly text: string;
};
