import { expect, it } from 'vitest';
import { checksum } from '../../../rig/practiceBench/checksum.ts';
import { readCommand } from '../../../rig/practiceBench/command.ts';
import { createCommandLines } from '../../../rig/practiceBench/commandLines.ts';
import { noteSentence, readingSentence } from '../../../rig/practiceBench/sentence.ts';

it('has the check value of CRC-16/MODBUS', () => {
  // MODBUS over serial line, check value for the ASCII digits 1 to 9: 0x4B37.
  expect(checksum('123456789')).toBe('4B37');
});

it('has the published checksums of MODBUS frames', () => {
  // Modbus application protocol, function 03 example: 11 03 00 6B 00 03 ends in the bytes 76 87, low byte first.
  expect(checksum('\x11\x03\x00\x6b\x00\x03')).toBe('8776');
  expect(checksum('\x01\x03\x00\x00\x00\x0a')).toBe('CDC5');
});

it('wraps counter and clock at 32 bits', () => {
  // 2^32 + 5 leaves 5, 2^32 leaves 0.
  expect(readingSentence(2 ** 32 + 5, 2 ** 32, ['1.0'])).toBe(`$5,0,1.0*${checksum('5,0,1.0')}\r\n`);
});

it('keeps notes to plain ASCII without an early end', () => {
  expect(noteSentence('a*b\né')).toBe(`#a?b??*${checksum('a?b??')}\r\n`);
});

it.each([
  ['speed 900', { kind: 'speed', speedRPerMin: 900 }],
  [' valve 0.25\r', { kind: 'valve', opening: 0.25 }],
  ['pressure 3.5', { kind: 'pressure', gaugeBar: 3.5 }],
  ['oil 45', { kind: 'oil', temperatureC: 45 }],
  ['dry', { kind: 'dry' }],
  ['flood', { kind: 'flood' }],
  ['suction 0.1', { kind: 'suction', opening: 0.1 }],
  ['blank 1', { kind: 'blank', isShut: true }],
  ['blank 0', { kind: 'blank', isShut: false }],
  ['hold 1', { kind: 'hold', isShut: true }],
])('understands %j', (text, command) => {
  expect(readCommand(text)).toEqual({ understood: true, command });
});

it.each([
  '',
  'speed',
  'speed fast',
  'speed 1e3',
  'speed -5',
  'speed 5000',
  'valve 1.1',
  'pressure 40',
  'dry now',
  'suction 2',
  'blank',
  'hold 2',
  'speed 1 2',
  'constructor 3',
  '\u0000\u0007',
])('refuses %j and says what it expected', (text) => {
  const reading = readCommand(text);
  expect(reading.understood).toBe(false);
  expect(reading).toHaveProperty('why', expect.stringContaining('expected'));
});

it('cuts commands alike whatever the pieces in which they come', () => {
  const text = 'speed 900\r\n\nvalve 0.5\npressure 2\n';
  for (const size of [1, 2, 5, text.length]) {
    const commands: string[] = [];
    const take = createCommandLines((command) => commands.push(command));
    for (let at = 0; at < text.length; at += size) take(text.slice(at, at + size));
    expect(commands).toEqual(['speed 900', 'valve 0.5', 'pressure 2']);
  }
});

it('does not gather a line without end', () => {
  const commands: string[] = [];
  const take = createCommandLines((command) => commands.push(command));
  for (let piece = 0; piece < 100; piece++) take('x'.repeat(100));
  take('\nspeed 600\n');
  expect(Math.max(...commands.map((command) => command.length))).toBeLessThanOrEqual(128);
  expect(commands.at(-1)).toBe('speed 600');
});
