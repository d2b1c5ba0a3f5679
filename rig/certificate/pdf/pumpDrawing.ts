import { printFixed } from '../../../analysis/formatStated.ts';
import { outlineFrame, outlinePath, scaleBarLength } from '../../../analysis/outline/outlineFrame.ts';
import { outlineOf } from '../../../analysis/outline/outlineOf.ts';
import type { OutlinePart } from '../../../analysis/outline/outlinePart.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import type { Sheet } from './sheet.ts';
import { INK, STYLES } from './style.ts';

/** No drawing is higher than this [pt]. */
const MAX_HEIGHT_PT = 100;
const BAR_ROOM_PT = 14;
const OIL_TINT = '#e4e7ea';
const PAPER = '#ffffff';

/** What of a pump can be drawn; null where its record holds no shape. */
export function drawableParts(pump: PumpRecord): readonly OutlinePart[] | null {
  const parts = outlineOf(pump.geometry, 0);
  return parts.ok ? parts.value : null;
}

/** The pump's own elements to scale, oil spaces tinted, with a scale bar. */
export function setPumpDrawing(sheet: Sheet, pump: PumpRecord, parts: readonly OutlinePart[]): void {
  const { document } = sheet;
  const frame = outlineFrame(parts);
  const ptPerM = Math.min(sheet.widthPt / frame.widthM, MAX_HEIGHT_PT / frame.heightM);
  const barM = scaleBarLength(frame);
  const barPt = barM * ptPerM;
  const heightPt = frame.heightM * ptPerM;
  const { xPt, yPt } = sheet;
  sheet.tagged(
    'Figure',
    () => {
      document.save().translate(xPt, yPt).lineWidth(0.6).lineJoin('round');
      for (const { encloses, outline } of parts) {
        const fill = encloses === 'bore' ? OIL_TINT : PAPER;
        document.path(outlinePath(outline, frame, ptPerM)).fillAndStroke(fill, INK);
      }
      document
        .moveTo(0, heightPt + BAR_ROOM_PT / 2)
        .lineTo(barPt, heightPt + BAR_ROOM_PT / 2)
        .lineWidth(1.2)
        .stroke();
      document.restore();
    },
    `Cross-section of the pump to scale: ${parts.map(({ name }) => name).join(', ')}`,
  );
  sheet.yPt += heightPt;
  const label = sheet.column(xPt + barPt + 4, sheet.widthPt - barPt - 4);
  label.skip(1);
  label.write(`${printFixed(differenceFrom(barM, unitOf('mm')), 0)} mm; ${pump.type}, as measured`, STYLES.quiet);
  sheet.yPt = Math.max(sheet.yPt + BAR_ROOM_PT, label.yPt);
}
