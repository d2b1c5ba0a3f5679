import { inflateSync } from 'node:zlib';

const HEX = /^[0-9a-f]+$/;
/** Where to look, and what must stand there. */
const BYTE_RANGE = { mark: '/ByteRange [', whole: /^\/ByteRange \[0 (\d{1,10}) (\d{1,10}) (\d{1,10})\]/ } as const;
const EMBEDDED_FILE = {
  mark: '<<\n/Type /EmbeddedFile\n',
  whole: /^<<\n\/Type \/EmbeddedFile\n[^\0]{0,500}?\/Length (\d{1,9})\n(?:\/Filter \/FlateDecode\n)?>>\nstream\n/,
} as const;
/** Longer than either of them is [bytes]. */
const LONGEST_MARK = 700;

/** No certificate's data come near this; a small stream that swells past it is refused. */
const MOST_ATTACHED_BYTES = 64 * 1024 * 1024;

export type SignedPdf = {
  /** Every byte of the file but the signature's own. */
  readonly covered: Uint8Array;
  /** The signature without its padding [DER]. */
  readonly signature: Uint8Array;
};

type Found = { readonly at: number; readonly match: RegExpExecArray };

/** The one place where a mark stands as it must; null where it stands nowhere or more than once. */
function onlyMatch(bytes: Buffer, { mark, whole }: { readonly mark: string; readonly whole: RegExp }): Found | null {
  const found: Found[] = [];
  for (let at = bytes.indexOf(mark); at !== -1; at = bytes.indexOf(mark, at + 1)) {
    const match = whole.exec(bytes.toString('latin1', at, at + LONGEST_MARK));
    if (match !== null) found.push({ at, match });
  }
  const [first, ...others] = found;
  return first === undefined || others.length > 0 ? null : first;
}

/** Whether a PDF claims to be signed at all. */
export function hasByteRange(file: Uint8Array): boolean {
  return Buffer.from(file.buffer, file.byteOffset, file.byteLength).includes(BYTE_RANGE.mark);
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
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const range = onlyMatch(bytes, BYTE_RANGE)?.match;
  if (range === undefined) return null;
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
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const head = onlyMatch(bytes, EMBEDDED_FILE);
  if (head === null) return null;
  const [text, length] = head.match;
  const from = head.at + text.length;
  const packed = bytes.subarray(from, from + Number(length));
  if (!text.includes('/FlateDecode')) return packed;
  try {
    return inflateSync(packed, { maxOutputLength: MOST_ATTACHED_BYTES });
  } catch {
    return null;
  }
}
