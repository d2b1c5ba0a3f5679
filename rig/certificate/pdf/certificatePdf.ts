import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import { placeSignature } from '../signature/signaturePlaceholder.ts';
import { registerFonts } from './fonts.ts';
import { setFrontPage } from './frontPage.ts';
import { setMeasurements } from './measurements.ts';
import { bytesOf, openDocument } from './openDocument.ts';
import { markSpecimen, setFeet } from './pageMarks.ts';
import type { PlotReadings } from './plotReadings.ts';
import { setRecord } from './record.ts';
import { type Document, Sheet } from './sheet.ts';
import type { Signer } from './signer.ts';
import { MARGINS, PAPERS, type PaperName } from './style.ts';

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
  readonly paper?: PaperName | undefined;
};

/** A certificate has this many pages at most: its type is set smaller before it has more. */
const MOST_PAGES = 3;

/** Type sizes that are tried, against the usual. */
const SCALES = [1, 0.98, 0.96, 0.94, 0.92, 0.88, 0.84] as const;

/** A last page that is filled less than this looks forgotten; smaller type is tried before [1]. */
const LEAST_LAST_PAGE = 0.12;

function openCertificate(data: CertificateData, paper: PaperName): Document {
  return openDocument(PAPERS[paper], {
    title: `${data.title}, ${data.number}`,
    author: data.workshop,
    subject: `${data.pump.name}, ${data.pump.serialNumber}`,
    creator: `slipwright ${data.programVersion}`,
    madeAt: new Date(data.issuedAtUtc),
  });
}

type SetDocument = {
  readonly document: Document;
  readonly pageCount: number;
  readonly lastPageShare: number;
  readonly writeSignature: () => void;
};

function setDocument(request: CertificatePdfRequest, scale: number, scratch: Document): SetDocument {
  const { data, json, signer, readings, paper: paperName = 'A4' } = request;
  const paper = PAPERS[paperName];
  const issuedAt = new Date(data.issuedAtUtc);
  const document = openCertificate(data, paperName);
  registerFonts(document);
  if (data.isSpecimen) document.on('pageAdded', () => markSpecimen(document, paper));
  document.addPage();
  const reason = `Certificate ${data.number}, issued by ${data.signatory}`;
  const writeSignature = placeSignature(document, { name: data.workshop, reason, signedAt: issuedAt });
  const sheet = new Sheet(document, { paper, scale, footPt: MARGINS.bottom, scratch });
  setFrontPage(sheet, data, json, signer);
  setMeasurements(sheet, data, readings);
  setRecord(sheet, data);
  setFeet(document, data, paper);
  return {
    document,
    writeSignature,
    pageCount: document.bufferedPageRange().count,
    lastPageShare: (sheet.yPt - MARGINS.top) / (sheet.bottomPt - MARGINS.top),
  };
}

/** The largest type with which the pages suffice and the last one is worth turning to; else that with the fewest pages. */
function bestSet(request: CertificatePdfRequest): SetDocument {
  const scratch = openCertificate(request.data, request.paper ?? 'A4');
  registerFonts(scratch);
  scratch.addPage();
  let best: SetDocument | null = null;
  for (const scale of SCALES) {
    const set = setDocument(request, scale, scratch);
    if (set.pageCount <= MOST_PAGES && set.lastPageShare >= LEAST_LAST_PAGE) return set;
    if (best === null || set.pageCount < best.pageCount) best = set;
  }
  if (best === null) throw new RangeError('SCALES: none');
  return best;
}

/**
 * Sets a certificate as PDF/A-3b, with room for its signature and its data attached. The same request gives the same
 * bytes.
 *
 * @param request - data, their bytes, the signer, readings to be drawn, and the paper [SI]
 * @returns the file, not signed yet [-]
 */
export async function certificatePdf(request: CertificatePdfRequest): Promise<Buffer> {
  const { data, json } = request;
  const issuedAt = new Date(data.issuedAtUtc);
  const { document, writeSignature } = bestSet(request);
  // Not packed: with nothing but a text editor the data can be taken out of the file.
  document.compress = false;
  document.file(Buffer.from(json), {
    name: `${data.number}.json`,
    type: 'application/json',
    description: 'The data of this certificate, as they were signed',
    relationship: 'Data',
    creationDate: issuedAt,
    modifiedDate: issuedAt,
  });
  document.compress = true;
  return bytesOf(document, writeSignature);
}
