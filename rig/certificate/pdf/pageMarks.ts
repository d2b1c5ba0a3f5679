import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { Document } from './sheet.ts';
import { MARGINS, type Paper, SPECIMEN_TINT, STYLES } from './style.ts';
import { drawText, layOut } from './textLayout.ts';

const SPECIMEN_SIZE_PT = 118;
const SPECIMEN_TURN_DEG = -52;

/** SPECIMEN across the page, under the text: large, pale, and still there when the page is copied in grey. */
export function markSpecimen(document: Document, paper: Paper): void {
  const middle: [number, number] = [paper.widthPt / 2, paper.heightPt / 2];
  const style = { sizePt: SPECIMEN_SIZE_PT, weight: 'semibold', colour: SPECIMEN_TINT } as const;
  document.markContent('Artifact', { type: 'Layout' });
  document.save().rotate(SPECIMEN_TURN_DEG, { origin: middle });
  drawText(
    document,
    layOut(document, 'SPECIMEN', style, 2 * paper.heightPt),
    middle[0],
    middle[1] - 0.68 * SPECIMEN_SIZE_PT,
    0,
    'centre',
  );
  document.restore();
  document.endMarkedContent();
}

/** The foot of every page: which certificate, which pump, which page of how many. */
export function setFeet(document: Document, data: CertificateData, paper: Paper): void {
  const widthPt = paper.widthPt - MARGINS.left - MARGINS.right;
  const { start, count } = document.bufferedPageRange();
  const yPt = paper.heightPt - MARGINS.bottom + 12;
  const specimen = data.isSpecimen ? 'SPECIMEN, ' : '';
  for (let index = 0; index < count; index += 1) {
    document.switchToPage(start + index);
    document.markContent('Artifact', { type: 'Pagination' });
    const left = `${specimen}certificate ${data.number}, pump ${data.pump.serialNumber}, ${data.issuedAtUtc.slice(0, 10)}`;
    drawText(document, layOut(document, left, STYLES.quiet, widthPt), MARGINS.left, yPt);
    const right = `page ${index + 1} of ${count}`;
    drawText(document, layOut(document, right, STYLES.quiet, widthPt), MARGINS.left, yPt, widthPt, 'right');
    document.endMarkedContent();
  }
}
