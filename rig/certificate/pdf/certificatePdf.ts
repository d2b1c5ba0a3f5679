import { once } from 'node:events';
import PDFDocument from 'pdfkit';
import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { placeSignature } from '../signature/signaturePlaceholder.ts';
import { setAnnex } from './annex.ts';
import { setFirstPage } from './firstPage.ts';
import { registerFonts } from './fonts.ts';
import { markSpecimen, setFeet } from './pageMarks.ts';
import { type PlotReadings, setSecondPage } from './secondPage.ts';
import { Sheet } from './sheet.ts';
import type { Signer } from './signer.ts';

declare global {
  namespace PDFKit.Mixins {
    interface PDFAttachmentOptions {
      /** AFRelationship of ISO 19005-3; the library's types leave it out. */
      relationship?: 'Data';
    }
  }
}

export type CertificatePdfRequest = {
  readonly data: CertificateData;
  /** The very bytes of the data, attached as they are. */
  readonly json: Uint8Array;
  readonly signer: Signer;
  readonly readings: PlotReadings;
};

function openDocument(data: CertificateData, issuedAt: Date): typeof PDFDocument {
  return new PDFDocument({
    size: 'A4',
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: '1.7',
    subset: 'PDF/A-3b',
    tagged: true,
    lang: 'en',
    displayTitle: true,
    // None of the reader's own fonts: PDF/A wants every font embedded.
    font: '',
    info: {
      Title: `${data.title}, ${data.number}`,
      Author: data.workshop,
      Subject: `${data.pump.name}, ${data.pump.serialNumber}`,
      Creator: `slipwright ${data.programVersion}`,
      Producer: 'PDFKit',
      CreationDate: issuedAt,
      ModDate: issuedAt,
    },
  });
}

async function bytesOf(document: typeof PDFDocument): Promise<Buffer> {
  const chunks: Buffer[] = [];
  document.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = once(document, 'end');
  document.end();
  await ended;
  return Buffer.concat(chunks);
}

/**
 * Sets a certificate as PDF/A-3b, with room for its signature and its data attached. The same request gives the same
 * bytes.
 *
 * @param request - data, their bytes, the signer, and readings to be drawn [SI]
 * @returns the file, not signed yet [-]
 */
export async function certificatePdf({ data, json, signer, readings }: CertificatePdfRequest): Promise<Buffer> {
  const issuedAt = new Date(data.issuedAtUtc);
  const document = openDocument(data, issuedAt);
  registerFonts(document);
  if (data.isSpecimen) document.on('pageAdded', () => markSpecimen(document));
  document.addPage();
  const reason = `Certificate ${data.number}, issued by ${data.signatory}`;
  placeSignature(document, { name: data.workshop, reason, signedAt: issuedAt });
  const sheet = new Sheet(document);
  setFirstPage(sheet, data, signer);
  setSecondPage(sheet, data, readings);
  setAnnex(sheet, data);
  setFeet(document, data);
  document.file(Buffer.from(json), {
    name: `${data.number}.json`,
    type: 'application/json',
    description: 'The data of this certificate, as they were signed',
    relationship: 'Data',
    creationDate: issuedAt,
    modifiedDate: issuedAt,
  });
  return bytesOf(document);
}
