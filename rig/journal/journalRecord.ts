import { LINE_FAULTS, type LineFault, type ReceivedLine } from '../serial/receivedLine.ts';

/**
 * The grammar of journal.log, ASCII throughout, a record a line:
 *
 *     <monotonic µs> TAB <bytes> LF                 a whole line, without its delimiter
 *     <monotonic µs> TAB <bytes> TAB torn LF        what stood in the line when the port closed
 *     <monotonic µs> TAB <bytes> TAB tooLong LF     a piece of a run without delimiter
 *     <monotonic µs> TAB TAB reconnected LF         no bytes: the port came back here
 *
 * Bytes outside 0x20-0x7E and the backslash stand as \xHH with upper-case digits, so a TAB or LF never stands for itself.
 */
const RECORD = /^(0|[1-9]\d{0,15})\t((?:[ -[\]-~]|\\x[0-9A-F]{2})*)(?:\t([A-Za-z]+))?$/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what has to be escaped
const TO_ESCAPE = /[\x00-\x1f\\\x7f-\xff]/g;
const ESCAPED = /\\x([0-9A-F]{2})/g;

const FAULTS: ReadonlyMap<string, LineFault> = new Map(LINE_FAULTS.map((fault) => [fault, fault]));

/** A received line as its journal record, line end included. */
export function formatJournalRecord({ monotonicUs, bytes, fault }: ReceivedLine): string {
  const escaped = bytes.replace(TO_ESCAPE, (byte) => `\\x${hexOf(byte)}`);
  return fault === null ? `${monotonicUs}\t${escaped}\n` : `${monotonicUs}\t${escaped}\t${fault}\n`;
}

/** A journal record, without its line end, as the line that was received; null if it is none. */
export function parseJournalRecord(record: string): ReceivedLine | null {
  const match = RECORD.exec(record);
  if (match === null) return null;
  const [, stamp = '', escaped = '', word] = match;
  const fault = word === undefined ? null : FAULTS.get(word);
  if (fault === undefined || (fault === 'reconnected' && escaped !== '')) return null;
  const bytes = escaped.includes('\\')
    ? escaped.replace(ESCAPED, (_, digits: string) => String.fromCharCode(Number.parseInt(digits, 16)))
    : escaped;
  return { monotonicUs: Number(stamp), bytes, fault };
}

/**
 * Length of the whole records at the beginning of a journal.
 *
 * @param journal - the bytes of a journal that may have been cut off [-]
 * @returns how many bytes stand before the first thing that is not a whole record [byte]
 */
export function wholeRecordsLength(journal: Buffer): number {
  let start = 0;
  for (let end = journal.indexOf(0x0a); end !== -1; end = journal.indexOf(0x0a, start)) {
    if (parseJournalRecord(journal.toString('latin1', start, end)) === null) break;
    start = end + 1;
  }
  return start;
}

function hexOf(byte: string): string {
  return byte.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0');
}
