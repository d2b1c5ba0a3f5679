import type PDFDocument from 'pdfkit';

declare global {
  namespace PDFKit {
    interface PDFDocument {
      /** The catalogue; the library's types leave it out. */
      readonly _root: { readonly data: Record<string, unknown> };
      /** The form as the library keeps it until the end; it asks for a font, which a signature does not need. */
      _acroform: { readonly fonts: object; readonly defaultFont: string };
    }
  }
}

/** Room for the signature [bytes]; one with a long workshop name takes about 1,400. */
const SIGNATURE_BYTES = 4096;

/** Filled in by the signer once the length of the file is known. */
const OPEN_NUMBER = '**********';

/** Annotation flags: printed, and locked (ISO 32000-1, table 165). */
const PRINTED_AND_LOCKED = 4 + 128;

/** Signatures exist, and the file may only be appended to (ISO 32000-1, table 219). */
const SIGNED_AND_APPEND_ONLY = 3;

export type SignatureWords = {
  readonly name: string;
  readonly reason: string;
  readonly signedAt: Date;
};

/**
 * Leaves room for a signature in a document that is being set: a signature field without a mark on the page. The file has
 * one revision and the signature covers it all.
 *
 * @param document - being set, on the page that the field belongs to [-]
 * @param words - who signs, why, and when [-]
 * @returns writes the room, to be called when the document has ended but for it: nearly every byte then stands before it [-]
 *
 * Source: ISO 32000-1:2008, 12.7.4.5 (signature fields) and 12.8.1 (byte range).
 */
export function placeSignature(document: typeof PDFDocument, { name, reason, signedAt }: SignatureWords): () => void {
  const signature = document.ref({
    Type: 'Sig',
    Filter: 'Adobe.PPKLite',
    SubFilter: 'adbe.pkcs7.detached',
    ByteRange: [0, OPEN_NUMBER, OPEN_NUMBER, OPEN_NUMBER],
    Contents: new Uint8Array(SIGNATURE_BYTES),
    Name: new String(name),
    Reason: new String(reason),
    M: signedAt,
  });
  const field = document.ref({
    Type: 'Annot',
    Subtype: 'Widget',
    FT: 'Sig',
    T: new String('Workshop'),
    V: signature,
    F: PRINTED_AND_LOCKED,
    Rect: [0, 0, 0, 0],
    P: document.page.dictionary,
  });
  field.end(undefined);
  document.page.annotations.push(field);
  document._acroform = { fonts: {}, defaultFont: 'none' };
  // Ended by the library with the document.
  document._root.data.AcroForm = document.ref({
    SigFlags: SIGNED_AND_APPEND_ONLY,
    Fields: [field],
    DR: { Font: {} },
  });
  return () => signature.end(undefined);
}
