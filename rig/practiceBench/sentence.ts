import { checksum } from './checksum.ts';

const COUNTER_SPAN = 2 ** 32;

/**
 * A reading on the wire: `$seq,device_us,v1,v2,...*HHHH`, ended by CR LF; counter and clock wrap at 32 bits.
 *
 * @param sequence - readings before this one, any whole number from 0 [1]
 * @param deviceUs - bench time, any whole number from 0 [µs]
 * @param values - one text a channel [channel's unit]
 * @returns the sentence with its line end [-]
 */
export function readingSentence(sequence: number, deviceUs: number, values: readonly string[]): string {
  const body = [sequence % COUNTER_SPAN, deviceUs % COUNTER_SPAN, ...values].join(',');
  return `$${body}*${checksum(body)}\r\n`;
}

/** A line for people: `#text*HHHH`, ended by CR LF. What is not plain ASCII, or would end it early, becomes '?'. */
export function noteSentence(text: string): string {
  const body = text.replace(/[^ -~]|\*/g, '?');
  return `#${body}*${checksum(body)}\r\n`;
}
