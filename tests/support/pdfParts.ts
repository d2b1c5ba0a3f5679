import { inflateSync } from 'node:zlib';

export type PdfPart = {
  readonly number: number;
  /** Dictionary and all else that is text, as Latin-1. */
  readonly text: string;
  /** What its stream holds, unpacked; null: it has none. */
  readonly stream: Buffer | null;
};

/** The objects of a PDF that has neither object streams nor encryption, read one after the other without its table. */
export function pdfParts(file: Buffer): readonly PdfPart[] {
  const parts: PdfPart[] = [];
  const whole = file.toString('latin1');
  const head = /(?:^|\n)(\d+) 0 obj\n/g;
  for (let match = head.exec(whole); match !== null; match = head.exec(whole)) {
    const from = match.index + match[0].length;
    const endAt = whole.indexOf('\nendobj', from);
    const streamAt = whole.indexOf('\nstream\n', from);
    const hasStream = streamAt !== -1 && streamAt < endAt;
    const text = whole.slice(from, hasStream ? streamAt : endAt);
    const length = Number(/\/Length (\d+)/.exec(text)?.[1] ?? 0);
    const packed = hasStream ? file.subarray(streamAt + 8, streamAt + 8 + length) : null;
    if (packed !== null) head.lastIndex = streamAt + 8 + length;
    const stream = packed !== null && text.includes('/FlateDecode') ? inflateSync(packed) : packed;
    parts.push({ number: Number(match[1]), text, stream });
  }
  return parts;
}
