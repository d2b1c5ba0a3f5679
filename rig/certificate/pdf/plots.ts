import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { DecimatedReadings } from '../../../analysis/decimate.ts';
import { DELIVERY_PLOT_HEIGHT_PT, drawEfficiencyPlot, drawFlowPlot } from './deliveryPlots.ts';
import { DRY_LIFT_PLOT_HEIGHT_PT, drawDryLiftPlot, hasSuctionReadings } from './dryLiftPlot.ts';
import { drawnStarts } from './dryStarts.ts';
import type { Sheet } from './sheet.ts';

const GAP_PT = 14;

/** Readings to be drawn, by run id. */
export type PlotReadings = Readonly<Record<string, DecimatedReadings>>;

function room(heightPt: number, draw: (column: Sheet) => void): (column: Sheet) => void {
  return (column) => {
    draw(column);
    column.yPt += heightPt;
  };
}

/** Flow and efficiency of a delivery run, side by side. */
export function setDeliveryPlots(sheet: Sheet, delivery: CertificateData['delivery'][number]): void {
  sheet.together((block) => {
    block.heading(`Delivery, run ${delivery.runId}`);
    block.columns([1, 1], GAP_PT, [
      room(DELIVERY_PLOT_HEIGHT_PT, (column) => drawFlowPlot(column, delivery)),
      room(DELIVERY_PLOT_HEIGHT_PT, (column) => drawEfficiencyPlot(column, delivery)),
    ]);
  });
}

/** Dry starts, two beside each other where there are two. */
export function setDryLiftPlots(sheet: Sheet, data: CertificateData, readings: PlotReadings): void {
  const drawn = drawnStarts(data).flatMap((dryLift) => {
    const shown = readings[dryLift.runId];
    return shown !== undefined && hasSuctionReadings(dryLift, shown) ? [{ dryLift, shown }] : [];
  });
  for (let index = 0; index < drawn.length; index += 2) {
    const row = drawn.slice(index, index + 2);
    sheet.together((block) =>
      block.columns(
        row.map(() => 1),
        GAP_PT,
        row.map(({ dryLift, shown }) => (column: Sheet) => {
          column.heading(`${dryLift.kind === 'blanked' ? 'Blanked dry start' : 'Dry start'}, run ${dryLift.runId}`);
          drawDryLiftPlot(column, dryLift, shown);
          column.yPt += DRY_LIFT_PLOT_HEIGHT_PT;
        }),
      ),
    );
  }
}
