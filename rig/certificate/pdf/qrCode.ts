import encodeQR from 'qr';
import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { sha256Of } from '../certificateFolder.ts';
import type { Sheet } from './sheet.ts';
import { INK } from './style.ts';

/** What the code says: which certificate, and the SHA-256 of its data. */
export function codeText({ number }: Pick<CertificateData, 'number'>, json: Uint8Array): string {
  return `slipwright certificate ${number} sha256 ${sha256Of(json)}`;
}

/**
 * Draws a QR code as vectors, its upper left corner where the pen stands.
 *
 * @param sheet - where it goes [-]
 * @param text - what it says [-]
 * @param sizePt - side of the square [pt]
 *
 * Source: ISO/IEC 18004 (by the qr package); error correction M, the quiet zone is the paper around it.
 */
export function drawCode(sheet: Sheet, text: string, sizePt: number): void {
  const modules = encodeQR(text, 'raw', { ecc: 'medium', border: 1 });
  const stepPt = sizePt / modules.length;
  const { document, xPt, yPt } = sheet;
  sheet.tagged(
    'Figure',
    () => {
      for (const [row, line] of modules.entries()) {
        for (const [column, isDark] of line.entries()) {
          if (isDark) document.rect(xPt + column * stepPt, yPt + row * stepPt, stepPt, stepPt);
        }
      }
      document.fill(INK);
    },
    `Code that says: ${text}`,
  );
}
