import type { Source, Uncertain } from '../../uncertainty/source.ts';
import type { FitProblem } from './fitSpace.ts';
import type { PreparedStart } from './measuredStart.ts';

export type DryFitInput = {
  /** One dry start, or several of one pump, set-up and wetness class; blanked ones among them or alone. */
  readonly prepared: readonly PreparedStart[];
  /** V_i from a delivery run; V_g where there is none. */
  readonly capacity: { readonly m3PerRev: Uncertain; readonly basis: 'derived' | 'geometry' };
  /** Sources of channels, barometer, oil and capacity. */
  readonly sources: readonly Source[];
  /** How the shaft's ends are closed, from the set-up. */
  readonly shaftEnds: 'sealed' | 'plugged' | 'open';
  /** For one who knows the pump's small unknowns; absent: they are fitted within their ranges. */
  readonly known?: FitProblem['known'];
  /** Of each search. Default 60. */
  readonly mostIterations?: number;
};
