import { inflateSync } from 'node:zlib';

const HEX = /^[0-9a-f]+$/;
const BYTE_RANGE = /\/ByteRange \[0 (\d{1,10}) (\d{1,10}) (\d{1,10})\]/g;
const EMBEDDED_FILE =
  /<<\n\/Type \/EmbeddedFile\n[^\0]{0,500}?\/Length (\d{1,9})\n(?:\/Filter \/FlateDecode\n)?>>\nstream\n/g;

/** No certificate's data come near this; a small stream that swells past it is refused. */
const MOST_ATTACHED_BYTES = 64 * 1024 * 1024;

export type SignedPdf = {
  /** Every byte of the file but the signature's own. */
  readonly covered: Uint8Array;
  /** The signature without its padding [DER]. */
  readonly signature: Uint8Array;
};

function onlyMatch(text: string, pattern: RegExp): RegExpExecArray | null {
  const [first, ...others] = [...text.matchAll(pattern)];
  return first === undefined || others.length > 0 ? null : first;
}

/** Whether a PDF claims to be signed at all. */
export function hasByteRange(file: Uint8Array): boolean {
  return Buffer.from(file).includes('/ByteRange [');
}

/** Total length of a DER value by its own head: SEQUENCE, long form of two length octets as every signature of ours has. */
function derLength(bytes: Uint8Array): number | null {
  const [tag, form, high, low] = bytes;
  if (tag !== 0x30 || form !== 0x82 || high === undefined || low === undefined) return null;
  return 4 + high * 256 + low;
}

/**
 * Takes a signed PDF apart. Strict, for files that this program wrote: one signature, over the whole file; its hexadecimal
 * in lower case; behind it nothing but zeros.
 *
 * @param file - bytes of the PDF [-]
 * @returns null where anything is otherwise [-]
 */
export function readSignedPdf(file: Uint8Array): SignedPdf | null {
  const bytes = Buffer.from(file);
  const range = onlyMatch(bytes.toString('latin1'), BYTE_RANGE);
  if (range === null) return null;
  const [start, end, rest] = [Number(range[1]), Number(range[2]), Number(range[3])];
  if (start < 1 || end <= start + 2 || end + rest !== bytes.length) return null;
  const hex = bytes.toString('latin1', start + 1, end - 1);
  if (bytes[start] !== 0x3c || bytes[end - 1] !== 0x3e || hex.length % 2 !== 0 || !HEX.test(hex)) return null;
  const contents = Buffer.from(hex, 'hex');
  const length = derLength(contents);
  if (length === null || length > contents.length) return null;
  if (contents.subarray(length).some((byte) => byte !== 0)) return null;
  return {
    covered: Buffer.concat([bytes.subarray(0, start), bytes.subarray(end)]),
    signature: contents.subarray(0, length),
  };
}

/**
 * The one file attached to a PDF that this program wrote.
 *
 * @param file - bytes of the PDF [-]
 * @returns the attached bytes; null where there is not exactly one that can be unpacked [-]
 */
export function readAttachment(file: Uint8Array): Uint8Array | null {
  const bytes = Buffer.from(file);
  const head = onlyMatch(bytes.toString('latin1'), EMBEDDED_FILE);
  if (head === null) return null;
  const from = head.index + head[0].length;
  const packed = bytes.subarray(from, from + Number(head[1]));
  if (!head[0].includes('/FlateDecode')) return packed;
  try {
    return inflateSync(packed, { maxOutputLength: MOST_ATTACHED_BYTES });
  } catch {
    return null;
  }
}
