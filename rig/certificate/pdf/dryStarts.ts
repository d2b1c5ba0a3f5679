import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateDryLift, CertificateDrySeries } from '../../../analysis/certificate/dryLiftSchema.ts';
import { hasSuctionReadings, setDryLiftPlot } from './dryLiftPlot.ts';
import type { PlotReadings } from './plotReadings.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';
import { togetherPlots } from './togetherPlots.ts';

const GAP_PT = 14;

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

/**
 * The dry starts that are drawn: all that stand alone, and those that tell most of a series; not a blanked one of which the
 * joint fit is drawn.
 */
function drawnStarts(data: CertificateData): readonly CertificateDryLift[] {
  const series = severalStarts(data);
  const inSeries = new Set(series.flatMap(({ starts }) => starts.map(({ runId }) => runId)));
  const telling = new Set(series.flatMap(tellingStarts));
  const joined = new Set(data.dryLiftTogether.flatMap(({ runIds }) => runIds));
  return data.dryLift
    .filter(({ runId }) => !inSeries.has(runId) || telling.has(runId))
    .filter(({ runId, kind }) => kind === 'lift' || !joined.has(runId))
    .slice(0, MOST_DRAWN);
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
      : `${primingTimeS.value.toFixed(2)} ± ${primingTimeS.expandedUncertainty.toFixed(2)} s`;
  return `${runId} ${time}${whyNotCounted === null ? '' : ` (not counted: ${whyNotCounted})`}`;
}

/** Every start of a series, in few words each. */
function setSeries(sheet: Sheet, { starts }: CertificateDrySeries): void {
  sheet.skip(4);
  sheet.write(`${starts.length} starts prepared alike, oil after: ${starts.map(startWords).join('; ')}.`, STYLES.small);
}

/** Every dry start that is drawn, the joint fits, and the starts of each series in words: two beside each other. */
export function setDryStarts(sheet: Sheet, data: CertificateData, readings: PlotReadings): void {
  const plots = drawnStarts(data).flatMap((dryLift) => {
    const shown = readings[dryLift.runId];
    if (shown === undefined || !hasSuctionReadings(dryLift, shown)) return [];
    return [(column: Sheet): void => setDryLiftPlot(column, dryLift, shown)];
  });
  const series = severalStarts(data).map(
    (one) =>
      (column: Sheet): void =>
        setSeries(column, one),
  );
  const cells = [...plots, ...togetherPlots(data), ...series];
  for (let index = 0; index < cells.length; index += 2) {
    const row = cells.slice(index, index + 2);
    sheet.together((block) =>
      block.columns(
        row.map(() => 1),
        GAP_PT,
        row,
      ),
    );
  }
}
