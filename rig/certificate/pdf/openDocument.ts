import { once } from 'node:events';
import PDFDocument from 'pdfkit';
import type { Document } from './sheet.ts';
import type { Paper } from './style.ts';

/** What a reader shows of a document besides its pages. */
type DocumentWords = {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  readonly creator: string;
  readonly madeAt: Date;
};

/** A PDF/A-3b document without a page yet, tagged, in English; nothing in it depends on when it is set. */
export function openDocument({ widthPt, heightPt }: Paper, words: DocumentWords): Document {
  return new PDFDocument({
    size: [widthPt, heightPt],
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
      Title: words.title,
      Author: words.author,
      Subject: words.subject,
      Creator: words.creator,
      Producer: 'PDFKit',
      CreationDate: words.madeAt,
      ModDate: words.madeAt,
    },
  });
}

/**
 * Ends a document and gives its bytes.
 *
 * @param document - all set [-]
 * @param writeLast - writes what the library was told of and waits for: it comes behind all else, fonts included [-]
 */
export async function bytesOf(document: Document, writeLast: () => void = () => undefined): Promise<Buffer> {
  const chunks: Buffer[] = [];
  document.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = once(document, 'end');
  document.end();
  writeLast();
  await ended;
  return Buffer.concat(chunks);
}
