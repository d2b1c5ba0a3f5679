import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateDryLift, CertificateDrySeries } from '../../../analysis/certificate/dryLiftSchema.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';

/** So many dry starts are drawn at most. */
const MOST_DRAWN = 4;

function severalStarts({ dryLiftSeries }: CertificateData): readonly CertificateDrySeries[] {
  return dryLiftSeries.filter(({ starts }) => starts.length > 1);
}

/** Of a series the slowest start that brought oil, and one that did not; they are the ones to look at. */
function tellingStarts({ starts }: CertificateDrySeries): readonly string[] {
  const slowest = [...starts].sort((a, b) => (b.primingTimeS?.value ?? -1) - (a.primingTimeS?.value ?? -1))[0];
  const failed = starts.find(({ primingTimeS }) => primingTimeS === null);
  return [slowest, failed].flatMap((start) => (start === undefined ? [] : [start.runId]));
}

/** The dry starts that are drawn: all that stand alone, and those that tell most of a series. */
export function drawnStarts(data: CertificateData): readonly CertificateDryLift[] {
  const series = severalStarts(data);
  const inSeries = new Set(series.flatMap(({ starts }) => starts.map(({ runId }) => runId)));
  const telling = new Set(series.flatMap(tellingStarts));
  return data.dryLift.filter(({ runId }) => !inSeries.has(runId) || telling.has(runId)).slice(0, MOST_DRAWN);
}

function startWords({
  runId,
  primingTimeS,
  watchedForS,
  whyNotCounted,
}: CertificateDrySeries['starts'][number]): string {
  const time =
    primingTimeS === null
      ? `no oil in ${(watchedForS ?? 0).toFixed(1)} s`
      : `${primingTimeS.value.toFixed(2)} s ± ${primingTimeS.expandedUncertainty.toFixed(2)} s`;
  return `${runId}: ${time}${whyNotCounted === null ? '' : ` (not counted: ${whyNotCounted})`}`;
}

/** Every start of a series, in a line each of few words. */
export function setDrySeries(sheet: Sheet, data: CertificateData): void {
  for (const { starts } of severalStarts(data)) {
    sheet.together((block) => {
      block.heading(`Dry starts prepared alike: ${starts.length}`);
      block.write(`Oil after: ${starts.map(startWords).join('; ')}.`, STYLES.small);
    });
  }
}
