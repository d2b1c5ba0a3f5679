import type { DryFitInput } from './dryFitInput.ts';
import type { DryFitWarning } from './dryFitRefusal.ts';
import type { GapChangeVerdict } from './dryPumpFit.ts';
import { LOG_DEAD_VOLUME, LOG_LEAK } from './fitSpace.ts';
import type { SearchedFit } from './fitUnknowns.ts';

/** Scatter about the model beyond the noise that calls for a look [1]. */
const MISFIT = 1.5;
/** Leak-back known to no more than a factor of e, standard uncertainty [1]. */
const UNKNOWN_LEAK = 1;
const CONTRADICTED = 3;
/** Two speeds are apart from this ratio on [1]. */
const TWO_SPEEDS = 1.3;

function gapWarning(verdict: GapChangeVerdict): DryFitWarning {
  if (verdict === 'changes') {
    return {
      code: 'GAP_CHANGES',
      text: 'Leak-back changed while the pump turned: films of oil formed or failed. The limit is that of the end of the start.',
    };
  }
  return {
    code: 'IN_THIS_CLASS_ONLY',
    text:
      verdict === 'constant'
        ? 'Leak-back stayed the same during the start. The limit holds for pumps wetted like this one.'
        : 'Leak-back may have changed during the start, and the interval counts it: the limit holds in this class only.',
  };
}

/** What stays on the result of a fit that came about. */
export function fitWarnings(
  { prepared, capacity, shaftEnds }: DryFitInput,
  { space, parameters, covariance, noiseFactor }: SearchedFit,
  verdict: GapChangeVerdict,
): readonly DryFitWarning[] {
  const warnings: DryFitWarning[] = [];
  const assumed = [...new Set(prepared.flatMap((start) => start.assumed))];
  if (assumed.length > 0) {
    warnings.push({
      code: 'SUCTION_SIDE_ASSUMED',
      text: `Not stated in the set-up and so assumed: ${assumed.join(', ')}. Measured figures narrow the interval.`,
    });
  }
  if (capacity.basis === 'geometry') {
    warnings.push({
      code: 'CAPACITY_FROM_GEOMETRY',
      text: 'The swept volume of the geometry stands for the derived capacity: a delivery run narrows the interval.',
    });
  }
  if (noiseFactor > MISFIT) {
    warnings.push({
      code: 'MODEL_MISFIT',
      text: `The readings lie ${noiseFactor.toFixed(1)} times as far from the fitted curve as their noise: something in the suction side is not as the set-up says.`,
    });
  }
  const leakDeviation = Math.sqrt(covariance[LOG_LEAK]?.[LOG_LEAK] ?? Number.NaN);
  if (!(leakDeviation < UNKNOWN_LEAK)) {
    warnings.push({
      code: 'LIMIT_NOT_IDENTIFIED',
      text: 'The pump primed too quickly to tell its leak-back: the limit is known no better than its wide interval says. A start with the suction blanked off tells it.',
    });
  }
  const stated = space.unknowns[LOG_DEAD_VOLUME];
  const away = Math.abs(space.expectable(parameters, LOG_DEAD_VOLUME) - (stated?.expected ?? 0));
  if (away > CONTRADICTED * Math.max(stated?.standardDeviation ?? 1, 1e-6)) {
    warnings.push({
      code: 'DEAD_VOLUME_CONTRADICTED',
      text: `The suction speaks for a dead volume of ${(1e6 * space.deadVolumeM3(parameters)).toFixed(0)} ml, far from the stated one: look for a forgotten length of pipe or a filter.`,
    });
  }
  const speeds = prepared.map(({ start }) => start.runningRevPerS);
  const isBlankedAlone = prepared.every(({ start }) => start.kind === 'blanked');
  if (isBlankedAlone && Math.max(...speeds) < TWO_SPEEDS * Math.min(...speeds)) {
    warnings.push({
      code: 'BLANKED_AT_ONE_SPEED',
      text: 'One blanked speed does not tell leak-back, which falls with the speed, from carry-over, which does not: the limit holds near this speed. Blank it at twice the speed too.',
    });
  }
  if (shaftEnds === 'open') {
    warnings.push({
      code: 'SHAFT_LEAK_COUNTED_IN',
      text: 'A shaft end is open: the air that it draws cannot be told from leak-back and is counted in.',
    });
  }
  warnings.push(gapWarning(verdict));
  return warnings;
}
