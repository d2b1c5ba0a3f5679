import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { Document } from './sheet.ts';
import { MARGINS, PAGE, SPECIMEN_TINT, STYLES, TEXT_WIDTH_PT } from './style.ts';
import { drawText, layOut } from './textLayout.ts';

const SPECIMEN_SIZE_PT = 118;
const SPECIMEN_TURN_DEG = -52;

/** SPECIMEN across the page, under the text: large, pale, and still there when the page is copied in grey. */
export function markSpecimen(document: Document): void {
  const middle: [number, number] = [PAGE.widthPt / 2, PAGE.heightPt / 2];
  const style = { sizePt: SPECIMEN_SIZE_PT, weight: 'semibold', colour: SPECIMEN_TINT } as const;
  document.markContent('Artifact', { type: 'Layout' });
  document.save().rotate(SPECIMEN_TURN_DEG, { origin: middle });
  drawText(
    document,
    layOut(document, 'SPECIMEN', style, 2 * PAGE.heightPt),
    middle[0],
    middle[1] - 0.68 * SPECIMEN_SIZE_PT,
    0,
    'centre',
  );
  document.restore();
  document.endMarkedContent();
}

/** The foot of every page: which certificate, which pump, which page of how many. */
export function setFeet(document: Document, data: CertificateData): void {
  const { start, count } = document.bufferedPageRange();
  const yPt = PAGE.heightPt - MARGINS.bottom + 12;
  const specimen = data.isSpecimen ? 'SPECIMEN, ' : '';
  for (let index = 0; index < count; index += 1) {
    document.switchToPage(start + index);
    document.markContent('Artifact', { type: 'Pagination' });
    const left = `${specimen}certificate ${data.number}, pump ${data.pump.serialNumber}, ${data.issuedAtUtc.slice(0, 10)}`;
    drawText(document, layOut(document, left, STYLES.quiet, TEXT_WIDTH_PT), MARGINS.left, yPt);
    const right = `page ${index + 1} of ${count}`;
    drawText(document, layOut(document, right, STYLES.quiet, TEXT_WIDTH_PT), MARGINS.left, yPt, TEXT_WIDTH_PT, 'right');
    document.endMarkedContent();
  }
}
