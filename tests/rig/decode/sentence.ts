import { crc16Modbus } from '../../../rig/serial/checksum.ts';
import type { ReceivedLine } from '../../../rig/serial/receivedLine.ts';

/** A sentence of the default layout around a body. */
export function sentence(body: string): string {
  return `$${body}*${crc16Modbus(body).toString(16).toUpperCase().padStart(4, '0')}`;
}

export function line(bytes: string, monotonicUs = 0): ReceivedLine {
  return { monotonicUs, bytes, fault: null };
}
