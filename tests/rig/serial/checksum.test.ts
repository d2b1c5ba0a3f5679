import { expect, it } from 'vitest';
import { checkedBody, crc16Modbus, xorChecksum } from '../../../rig/serial/checksum.ts';

it('CRC-16/MODBUS of the nine digits is the published check value', () => {
  // Check value of CRC-16/MODBUS as catalogued and used in the test suites of public Modbus libraries.
  expect(crc16Modbus('123456789')).toBe(0x4b37);
});

it('CRC-16/MODBUS of a published request is what follows it on the wire', () => {
  // MODBUS Application Protocol V1.1b3, function 03 example, in RTU framing: 11 03 00 6B 00 03 then 76 87, low byte first.
  expect(crc16Modbus('\x11\x03\x00\x6b\x00\x03')).toBe(0x8776);
});

it('the XOR checksum of the widely quoted NMEA 0183 position sentence is 47', () => {
  expect(xorChecksum('GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,')).toBe(0x47);
});

it('takes a sentence apart only if its checksum is there and right', () => {
  expect(checkedBody('123456789*4B37', 'crc16')).toBe('123456789');
  expect(checkedBody('123456789*4b37', 'crc16')).toBe('123456789');
  expect(checkedBody('123456788*4B37', 'crc16')).toBeNull();
  expect(checkedBody('123456789', 'crc16')).toBeNull();
  expect(checkedBody('123456789*4B3', 'crc16')).toBeNull();
  expect(checkedBody('123456789*4B37 ', 'crc16')).toBeNull();
});
