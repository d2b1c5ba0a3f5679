import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { tagNumbers } from '../../../analysis/certificate/tagNumbers.ts';
import { registerFonts } from './fonts.ts';
import { bytesOf, openDocument } from './openDocument.ts';
import { codeText, drawCode } from './qrCode.ts';
import { type Document, Sheet } from './sheet.ts';
import { HAIRLINE, INK, MM, STYLES, type TextStyle } from './style.ts';
import { drawText } from './textLayout.ts';

/** ISO 216 A7, lying: fits a luggage tag and a jacket pocket. */
const TAG = { widthPt: 105 * MM, heightPt: 74 * MM } as const;
const EDGE_PT = 5 * MM;
/** Left of this the hole for the wire is punched. */
const HOLE = { xPt: 6.5 * MM, radiusPt: 2.5 * MM } as const;
const LEFT_PT = 14 * MM;
const CODE_PT = 19 * MM;
const GAP_PT = 8;

const NUMBER: TextStyle = { sizePt: 10, weight: 'semibold', colour: INK };
const NAME: TextStyle = { ...STYLES.quiet, sizePt: 6.6 };

function setNumbers(sheet: Sheet, data: CertificateData): void {
  const numbers = tagNumbers(data);
  for (let index = 0; index < numbers.length; index += 2) {
    sheet.columns(
      [1, 1],
      GAP_PT,
      numbers.slice(index, index + 2).map(({ name, value, where }) => (column: Sheet) => {
        column.write(name, NAME);
        column.write(value, NUMBER);
        column.write(where === '' ? ' ' : where, NAME);
      }),
    );
    sheet.skip(3);
  }
}

function setTag(document: Document, data: CertificateData, json: Uint8Array): void {
  const { pump } = data;
  const layout = { paper: TAG, scale: 1, footPt: EDGE_PT, scratch: document };
  const sheet = new Sheet(document, layout, { xPt: LEFT_PT, widthPt: TAG.widthPt - LEFT_PT - EDGE_PT });
  sheet.yPt = EDGE_PT;
  sheet.artifact(() =>
    document
      .circle(HOLE.xPt, TAG.heightPt / 2, HOLE.radiusPt)
      .lineWidth(0.5)
      .strokeColor(HAIRLINE)
      .stroke(),
  );
  const words = sheet.column(sheet.xPt, sheet.widthPt - CODE_PT - GAP_PT);
  words.write(
    `${data.isSpecimen ? 'SPECIMEN. ' : ''}${pump.serialNumber}: ${data.outcome}`,
    { ...NUMBER, sizePt: 12.5 },
    'H1',
  );
  words.write(pump.name, STYLES.strong);
  words.write(`turns ${pump.rotation}, seen on the shaft end`, STYLES.small);
  words.write(`Certificate ${data.number}, ${data.issuedAtUtc.slice(0, 10)}, ${data.workshop}`, STYLES.small);
  drawCode(sheet.column(sheet.xPt + sheet.widthPt - CODE_PT, CODE_PT), codeText(data, json), CODE_PT);
  sheet.yPt = Math.max(words.yPt, EDGE_PT + CODE_PT) + 4;
  sheet.rule();
  sheet.skip(4);
  setNumbers(sheet, data);
  const scope = sheet.lay(data.scope, NAME);
  const yPt = TAG.heightPt - EDGE_PT - scope.heightPt;
  sheet.tagged('P', () => drawText(document, scope, sheet.xPt, yPt));
}

/**
 * Sets the tag that is tied on the pump: a page of A7 with the six numbers that matter, number and code of the certificate.
 * The same data give the same bytes.
 *
 * @param data - of the certificate [SI]
 * @param json - their very bytes, for the code [-]
 * @returns the tag, not signed: the certificate is [PDF]
 */
export async function tagPdf(data: CertificateData, json: Uint8Array): Promise<Buffer> {
  const document = openDocument(TAG, {
    title: `Tag of certificate ${data.number}`,
    author: data.workshop,
    subject: `${data.pump.name}, ${data.pump.serialNumber}`,
    creator: `slipwright ${data.programVersion}`,
    madeAt: new Date(data.issuedAtUtc),
  });
  registerFonts(document);
  document.addPage();
  setTag(document, data, json);
  return bytesOf(document);
}
