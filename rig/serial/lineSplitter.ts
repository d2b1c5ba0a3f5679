import { ReadlineParser } from '@serialport/parser-readline';
import type { LineFault, LineFraming, ReceivedLine } from './receivedLine.ts';

type ExpectedLine = { readonly monotonicUs: number; readonly fault: LineFault | null };

/**
 * Bytes of one opening of a port to lines. ReadlineParser finds the lines, but bounds nothing: this guard stands in front
 * of it, ends a run without delimiter after `maxLineBytes`, and notes for each line that the parser will yield when it ended
 * and whether it is whole. Every byte goes on; only delimiters are taken off.
 */
export class LineSplitter {
  private readonly parser: ReadlineParser;
  private readonly delimiter: Buffer;
  private readonly expected: ExpectedLine[] = [];
  /** First byte of a two-byte delimiter at the end of a chunk: the other may follow in the next. */
  private held: Buffer = Buffer.alloc(0);
  /** Bytes that the parser holds since the last line end. */
  private runLength = 0;
  private isInLongRun = false;
  private lastUs = 0;

  constructor(
    private readonly framing: LineFraming,
    private readonly onLine: (line: ReceivedLine) => void,
  ) {
    this.delimiter = Buffer.from(framing.delimiter, 'latin1');
    // The delimiter is kept in what the parser yields, or an empty line would go by unseen.
    this.parser = new ReadlineParser({ delimiter: this.delimiter, encoding: 'latin1', includeDelimiter: true });
    this.parser.on('data', (text: string) => this.take(text));
  }

  feed(chunk: Buffer, monotonicUs: number): void {
    this.lastUs = monotonicUs;
    let rest = this.held.length > 0 ? Buffer.concat([this.held, chunk]) : chunk;
    this.held = Buffer.alloc(0);
    if (this.delimiter.length === 2 && rest[rest.length - 1] === this.delimiter[0]) {
      this.held = rest.subarray(rest.length - 1);
      rest = rest.subarray(0, rest.length - 1);
    }
    while (rest.length > 0) rest = this.pass(rest, monotonicUs);
  }

  /** The port closed: hands on the half line, if there is one, and ends when all lines were handed on. */
  async end(): Promise<void> {
    if (this.held.length > 0) this.pass(this.held, this.lastUs);
    this.held = Buffer.alloc(0);
    if (this.runLength > 0) this.expected.push({ monotonicUs: this.lastUs, fault: 'torn' });
    await new Promise<void>((resolve) => {
      this.parser.once('end', resolve);
      this.parser.end();
    });
  }

  /** Passes on up to the next line end; returns what is left. */
  private pass(bytes: Buffer, monotonicUs: number): Buffer {
    const at = bytes.indexOf(this.delimiter);
    const room = this.framing.maxLineBytes - this.runLength;
    if (at !== -1 && at <= room) {
      this.lineEnds({ monotonicUs, fault: this.isInLongRun ? 'tooLong' : null });
      this.isInLongRun = false;
      const end = at + this.delimiter.length;
      this.parser.write(bytes.subarray(0, end));
      return bytes.subarray(end);
    }
    if (at === -1 && bytes.length <= room) {
      this.runLength += bytes.length;
      this.parser.write(bytes);
      return bytes.subarray(bytes.length);
    }
    this.isInLongRun = true;
    this.lineEnds({ monotonicUs, fault: 'tooLong' });
    this.parser.write(Buffer.concat([bytes.subarray(0, room), this.delimiter]));
    return bytes.subarray(room);
  }

  private lineEnds(expected: ExpectedLine): void {
    this.expected.push(expected);
    this.runLength = 0;
  }

  private take(text: string): void {
    const expected = this.expected.shift();
    if (expected === undefined) return; // the empty rest that the parser yields at its end
    const bytes = text.endsWith(this.framing.delimiter) ? text.slice(0, -this.framing.delimiter.length) : text;
    this.onLine({ ...expected, bytes });
  }
}
