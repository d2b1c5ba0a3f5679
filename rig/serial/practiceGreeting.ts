import { checkedBody } from './checksum.ts';

const GREETING = /^slipwright practice bench, speed-up (\d+(?:\.\d+)?)$/;

/**
 * Reads the note by which a practice bench says what it is: `#slipwright practice bench, speed-up 20*HHHH`, CRC-16/MODBUS over what
 * stands between '#' and '*'. Nothing else makes a bench a practice bench.
 *
 * @param bytes - a received line without its delimiter [-]
 * @returns the speed-up of its clock [1], or null for any other line [-]
 */
export function parsePracticeGreeting(bytes: string): { readonly speedUp: number } | null {
  if (!bytes.startsWith('#')) return null;
  const body = checkedBody(bytes.slice(1), 'crc16');
  const speedUp = Number(body === null ? Number.NaN : GREETING.exec(body)?.[1]);
  return speedUp > 0 ? { speedUp } : null;
}
