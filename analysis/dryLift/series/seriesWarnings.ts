import type { SeriesTrend } from '../../resultSchema/drySeriesSchema.ts';
import type { RefusalResult } from '../../resultSchema/statedSchema.ts';
import type { SeriesStart } from './seriesStart.ts';

/** Between dry runs, so that films and metal cool: a house limit from trade practice, no source [s]. */
const LEAST_REST_S = 600;

const MINUTE_S = 60;

/** Starts that came sooner after the one before than the pump was to stand; a practice bench keeps another time. */
function tooSoon(alike: readonly SeriesStart[]): readonly string[] {
  return alike.flatMap(({ run, result }, index) => {
    const before = alike[index - 1];
    if (before === undefined || result.isPractice) return [];
    const restS = (Date.parse(run.startedAtUtc) - Date.parse(before.closing.closedAtUtc)) / 1000;
    const neededS = Math.max(LEAST_REST_S, run.setUp.wetting?.standingTimeS ?? 0);
    return restS < neededS
      ? [`${run.id} (${Math.round(restS / MINUTE_S)} of ${Math.round(neededS / MINUTE_S)} min)`]
      : [];
  });
}

/**
 * What may make the starts of a series less alike than their records say.
 *
 * @param alike - starts of the series, oldest first [-]
 * @param trend - of their times [-]
 * @returns warnings; none where nothing is to be seen [-]
 */
export function seriesWarnings(alike: readonly SeriesStart[], trend: SeriesTrend): readonly RefusalResult[] {
  const warnings: RefusalResult[] = [];
  const soon = tooSoon(alike);
  if (soon.length > 0) {
    warnings.push({
      code: 'STARTS_TOO_CLOSE',
      text: `Starts followed sooner on the one before than the pump was to drain and cool: ${soon.join(', ')}. It may have been wetter than its class says.`,
    });
  }
  if (trend.verdict === 'faster') {
    warnings.push({
      code: 'GETS_FASTER',
      text: 'Each start was faster than the one before: the pump is no longer as dry as at first. Drain it longer between starts; the first of them is the best evidence.',
    });
  }
  if (trend.verdict === 'slower') {
    warnings.push({
      code: 'GETS_SLOWER',
      text: 'Each start was slower than the one before: films fail or something wears. Look at the pump before it is started dry again.',
    });
  }
  return warnings;
}
