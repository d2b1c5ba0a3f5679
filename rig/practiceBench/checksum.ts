/**
 * CRC-16/MODBUS, bit by bit. The serial reader has an implementation of its own: each checks the other.
 *
 * @param text - characters up to U+00FF, one byte each [-]
 * @returns the checksum as four upper-case hexadecimal digits of its numeric value [-]
 *
 * Source: MODBUS over serial line, specification and implementation guide V1.02, 6.2.2 (polynomial 0xA001 reflected,
 * initial value 0xFFFF).
 *
 * @example checksum('123456789') // '4B37'
 */
export function checksum(text: string): string {
  let crc = 0xffff;
  for (let index = 0; index < text.length; index++) {
    crc ^= text.charCodeAt(index) & 0xff;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  }
  return crc.toString(16).toUpperCase().padStart(4, '0');
}
