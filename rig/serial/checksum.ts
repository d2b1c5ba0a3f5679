/** Checksums of bench sentences, over the bytes of a latin1 string. */

/** CRC-16 of one byte value, reflected polynomial 0xA001. */
const CRC_TABLE: Uint16Array = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  return crc;
});

/**
 * CRC-16/MODBUS: reflected polynomial 0xA001, initial value 0xFFFF, no final inversion.
 *
 * @param bytes - latin1 string, one character a byte [-]
 * @returns the checksum, 0 to 0xFFFF [1]
 *
 * Source: MODBUS over Serial Line, Specification and Implementation Guide V1.02, section 2.5.1.2.
 *
 * @example crc16Modbus('123456789') // 19255: 0x4B37
 */
export function crc16Modbus(bytes: string): number {
  let crc = 0xffff;
  for (let index = 0; index < bytes.length; index += 1) {
    crc = (crc >>> 8) ^ (CRC_TABLE[(crc ^ bytes.charCodeAt(index)) & 0xff] ?? 0);
  }
  return crc;
}

/**
 * Exclusive or of all bytes.
 *
 * @param bytes - latin1 string, one character a byte [-]
 * @returns the checksum, 0 to 0xFF [1]
 *
 * Source: NMEA 0183, the checksum field of a sentence.
 *
 * @example xorChecksum('GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,') // 71: 0x47
 */
export function xorChecksum(bytes: string): number {
  let sum = 0;
  for (let index = 0; index < bytes.length; index += 1) sum ^= bytes.charCodeAt(index) & 0xff;
  return sum;
}

const SUMS = {
  crc16: { of: crc16Modbus, digits: /^[0-9a-fA-F]{4}$/ },
  xor: { of: xorChecksum, digits: /^[0-9a-fA-F]{2}$/ },
} as const;

/**
 * Takes `body*HHHH` apart and checks it.
 *
 * @param sentence - what stands behind the prefix, checksum included [-]
 * @param kind - the checksum that the bench declares [-]
 * @returns the body before the last '*', or null if the checksum is absent, malformed or wrong [-]
 */
export function checkedBody(sentence: string, kind: keyof typeof SUMS): string | null {
  const star = sentence.lastIndexOf('*');
  if (star === -1) return null;
  const body = sentence.slice(0, star);
  const digits = sentence.slice(star + 1);
  const sum = SUMS[kind];
  return sum.digits.test(digits) && Number.parseInt(digits, 16) === sum.of(body) ? body : null;
}
