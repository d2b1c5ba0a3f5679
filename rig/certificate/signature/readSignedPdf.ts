import { createHash } from 'node:crypto';
import { inflateSync } from 'node:zlib';
import { type PdfObject, PdfObjects } from './pdfObjects.ts';

const HEX = /^[0-9a-f]+$/;

/** From the catalogue to the signature: the form has one field, and that is it. */
const TO_SIGNATURE = [
  /\n\/AcroForm (\d{1,7}) 0 R\n/,
  /\n\/Fields \[(\d{1,7}) 0 R\]\n/,
  /\n\/V (\d{1,7}) 0 R\n/,
] as const;
const SIGNATURE =
  /^\d{1,7} 0 obj\n<<\n\/Type \/Sig\n\/Filter \/Adobe\.PPKLite\n\/SubFilter \/adbe\.pkcs7\.detached\n\/ByteRange \[0 (\d{1,10}) (\d{1,10}) (\d{1,10})\] *\n\/Contents </;

/** From the catalogue to the attachment: there is one; packed in the first certificates, since then as it is. */
const TO_ATTACHMENT = [
  /\n\/Names (\d{1,7}) 0 R\n/,
  /\n\/EmbeddedFiles <<\n {2}\/Names \[\n {4}\([^()\\]{1,100}\) (\d{1,7}) 0 R\n\]\n>>\n/,
  /\n\/EF <<\n\/F (\d{1,7}) 0 R\n>>\n/,
] as const;
const ATTACHMENT =
  /^\d{1,7} 0 obj\n<<\n\/Type \/EmbeddedFile\n[^\0]{0,500}?\n\/Length (\d{1,9})\n(\/Filter \/FlateDecode\n)?>>\nstream\n/;
const STREAM_END = '\nendstream\nendobj\n';

/** No certificate's data come near this; a small stream that swells past it is refused. */
const MOST_ATTACHED_BYTES = 64 * 1024 * 1024;

export type SignedPdf = {
  /** SHA-256 of every byte of the file but the signature's own. */
  readonly coveredSha256: Buffer;
  /** SHA-256 of the file. */
  readonly fileSha256: string;
  /** The signature without its padding [DER]. */
  readonly signature: Uint8Array;
};

function bufferOver(file: Uint8Array): Buffer {
  return Buffer.from(file.buffer, file.byteOffset, file.byteLength);
}

/** Whether a PDF claims to be signed at all. */
export function hasByteRange(file: Uint8Array): boolean {
  return bufferOver(file).includes('/ByteRange [');
}

/** Whether a file begins as a PDF and does not end as one. */
export function isCutShort(file: Uint8Array): boolean {
  const bytes = bufferOver(file);
  return bytes.toString('latin1', 0, 5) === '%PDF-' && !/%%EOF\s*$/.test(bytes.toString('latin1', bytes.length - 10));
}

/** Total length of a DER value by its own head: SEQUENCE, long form of two length octets as every signature of ours has. */
function derLength(bytes: Uint8Array): number | null {
  const [tag, form, high, low] = bytes;
  if (tag !== 0x30 || form !== 0x82 || high === undefined || low === undefined) return null;
  return 4 + high * 256 + low;
}

/** Where the signature's hexadecimal begins and ends, its brackets included. */
function signatureHole(bytes: Buffer, { at, text }: PdfObject): { readonly from: number; readonly to: number } | null {
  const range = SIGNATURE.exec(text);
  if (range === null) return null;
  const [from, to, rest] = [Number(range[1]), Number(range[2]), Number(range[3])];
  const isWholeFile = from === at + range[0].length - 1 && to > from + 2 && to + rest === bytes.length;
  return isWholeFile && bytes[to - 1] === 0x3e ? { from, to } : null;
}

/**
 * Takes a signed PDF apart. Strict, for files that this program wrote: one revision, one signature, over the whole file; its
 * hexadecimal in lower case; behind it nothing but zeros.
 *
 * @param file - bytes of the PDF [-]
 * @returns null where anything is otherwise [-]
 */
export function readSignedPdf(file: Uint8Array): SignedPdf | null {
  const bytes = bufferOver(file);
  const object = PdfObjects.of(bytes)?.follow(...TO_SIGNATURE) ?? null;
  const hole = object === null ? null : signatureHole(bytes, object);
  if (hole === null) return null;
  const hex = bytes.toString('latin1', hole.from + 1, hole.to - 1);
  if (hex.length % 2 !== 0 || !HEX.test(hex)) return null;
  const contents = Buffer.from(hex, 'hex');
  const length = derLength(contents);
  if (length === null || length > contents.length) return null;
  if (!contents.subarray(length).equals(Buffer.alloc(contents.length - length))) return null;
  const before = createHash('sha256').update(bytes.subarray(0, hole.from));
  const rest = bytes.subarray(hole.to);
  return {
    coveredSha256: before.copy().update(rest).digest(),
    fileSha256: before.update(bytes.subarray(hole.from, hole.to)).update(rest).digest('hex'),
    signature: contents.subarray(0, length),
  };
}

/**
 * The one file attached to a PDF that this program wrote.
 *
 * @param file - bytes of the PDF [-]
 * @returns the attached bytes; null where there is not exactly one, as it was written, that can be unpacked where it is packed [-]
 */
export function readAttachment(file: Uint8Array): Uint8Array | null {
  const bytes = bufferOver(file);
  const object = PdfObjects.of(bytes)?.follow(...TO_ATTACHMENT) ?? null;
  const head = object === null ? null : ATTACHMENT.exec(object.text);
  if (object === null || head === null) return null;
  const from = object.at + head[0].length;
  const to = from + Number(head[1]);
  if (bytes.toString('latin1', to, to + STREAM_END.length) !== STREAM_END) return null;
  const attached = bytes.subarray(from, to);
  if (head[2] === undefined) return attached;
  try {
    return inflateSync(attached, { maxOutputLength: MOST_ATTACHED_BYTES });
  } catch {
    return null;
  }
}
