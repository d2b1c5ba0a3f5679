import type { Source } from '../../uncertainty/source.ts';
import type { DryFitWarning } from './dryFitRefusal.ts';
import type { FitProblem } from './fitSpace.ts';
import type { SearchedFit } from './fitUnknowns.ts';
import type { Profile } from './profile.ts';

/**
 * Whether the gap constant changed during the start: 'changes' where the readings demand it, 'constant' where they exclude
 * that it ended more than a fifth away, 'undecided' between.
 */
export type GapChangeVerdict = 'changes' | 'constant' | 'undecided';

/** Leak-back of a dry pump, fitted to one start or to several of one wetness class. */
export type DryPumpFit = {
  readonly problem: FitProblem;
  readonly search: SearchedFit;
  readonly profile: Profile;
  readonly gapChange: GapChangeVerdict;
  /** Noise of each start's readings as a source, in the order of the starts. */
  readonly noise: readonly { readonly noiseSourceId: string; readonly readingCount: number }[];
  /** Everything that its values are sensitive to. */
  readonly sources: readonly Source[];
  readonly warnings: readonly DryFitWarning[];
};
