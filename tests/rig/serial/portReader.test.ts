import { afterEach, expect, it } from 'vitest';
import { crc16Modbus } from '../../../rig/serial/checksum.ts';
import { listPorts } from '../../../rig/serial/listPorts.ts';
import { openPortReader, type PortReader, type PortStatus } from '../../../rig/serial/portReader.ts';
import type { ReceivedLine } from '../../../rig/serial/receivedLine.ts';
import { Collected, TestBench } from './testPty.ts';

const GREETING_BODY = 'slipwright practice bench, speed-up 20';
const GREETING = `#${GREETING_BODY}*${crc16Modbus(GREETING_BODY).toString(16).toUpperCase().padStart(4, '0')}\r\n`;

const cleanUps: (() => unknown)[] = [];
afterEach(async () => {
  for (const cleanUp of cleanUps.splice(0).reverse()) await cleanUp();
});

function bench(): TestBench {
  const made = new TestBench();
  cleanUps.push(() => made.dispose());
  return made;
}

async function read(
  path: string,
  more: { mustExist?: boolean } = {},
): Promise<{ reader: PortReader; lines: Collected<ReceivedLine>; statuses: Collected<PortStatus> }> {
  const lines = new Collected<ReceivedLine>();
  const statuses = new Collected<PortStatus>();
  const reader = await openPortReader({
    path,
    baudRate: 115_200,
    wire: { delimiter: '\r\n', maxLineBytes: 64 },
    onLine: lines.add,
    onStatus: statuses.add,
    retryDelayMs: 5,
    ...more,
  });
  cleanUps.push(() => reader.close());
  return { reader, lines, statuses };
}

it('reads lines from a real pseudo-terminal and never writes a byte to it, not even on opening and closing', async () => {
  const far = bench();
  const { reader, lines } = await read(far.path, { mustExist: true });
  far.say('$1,2\r\n$3,4\r\n$5');
  await lines.until((items) => items.length >= 2);
  await reader.close();
  await reader.close();
  expect(lines.items.map(({ bytes, fault }) => [bytes, fault])).toEqual([
    ['$1,2', null],
    ['$3,4', null],
    ['$5', 'torn'],
  ]);
  expect(reader.status().status).toBe('closed');
  expect(far.received).toBe('');
});

it('refuses to send while no practice bench has announced itself, and sends nothing then', async () => {
  const far = bench();
  const { reader, lines } = await read(far.path);
  far.say(`${GREETING.replace('20*', '21*')}#slipwright practice bench, speed-up 20\r\n`);
  await lines.until((items) => items.length === 2);
  await expect(reader.sendToPracticeBench('speed 20')).rejects.toMatchObject({ code: 'NOT_PRACTICE' });
  expect(far.received).toBe('');
});

it('sends to a practice bench that announced itself, and no more once it was unplugged', async () => {
  const far = bench();
  const { reader, lines, statuses } = await read(far.path);
  far.say(GREETING);
  await lines.until((items) => items.length === 1);
  await reader.sendToPracticeBench('speed 20');
  await far.chunks.until((chunks) => chunks.join('').includes('speed 20'));
  far.pullOut();
  await statuses.until((items) => items.some(({ status }) => status === 'waiting'));
  await expect(reader.sendToPracticeBench('speed 30')).rejects.toMatchObject({ code: 'NOT_PRACTICE' });
  far.plugIn();
  await lines.until((items) => items.some(({ fault }) => fault === 'reconnected'));
  await expect(reader.sendToPracticeBench('speed 40')).rejects.toMatchObject({ code: 'NOT_PRACTICE' });
  far.say('$1\r\n');
  await lines.until((items) => items.some(({ bytes }) => bytes === '$1'));
  expect(far.received).toBe('speed 20\n');
});

it('goes on after the port was pulled out in the middle of a line, the half line marked, the gap marked', async () => {
  const far = bench();
  const { lines, statuses } = await read(far.path);
  far.say('$1\r\n$2,hal');
  await lines.until((items) => items.length === 1);
  far.pullOut();
  await statuses.until((items) => items.some(({ status }) => status === 'waiting'));
  far.plugIn();
  await lines.until((items) => items.some(({ fault }) => fault === 'reconnected'));
  far.say('$3\r\n');
  await lines.until((items) => items.some(({ bytes }) => bytes === '$3'));
  expect(lines.items.map(({ bytes, fault }) => [bytes, fault])).toEqual([
    ['$1', null],
    ['$2,hal', 'torn'],
    ['', 'reconnected'],
    ['$3', null],
  ]);
});

it('waits for a port that is not there yet, and says so', async () => {
  const far = bench();
  far.pullOut();
  const { lines, statuses } = await read(far.path);
  expect(statuses.items.at(-1)).toMatchObject({ status: 'waiting', detail: expect.stringContaining('No such file') });
  far.plugIn();
  await statuses.until((items) => items.at(-1)?.status === 'open');
  far.say('$1\r\n');
  expect((await lines.until((items) => items.length === 1))[0]).toMatchObject({ bytes: '$1', fault: null });
});

it('refuses a port that must exist and does not, or is busy, by its name', async () => {
  await expect(read('/dev/no-such-bench', { mustExist: true })).rejects.toMatchObject({
    code: 'PORT',
    path: '/dev/no-such-bench',
    message: expect.stringContaining('/dev/no-such-bench'),
  });
  const far = bench();
  await read(far.path);
  await expect(read(far.path, { mustExist: true })).rejects.toMatchObject({ code: 'PORT', path: far.path });
});

it('lists ports without failing where the machine cannot list them', async () => {
  expect(Array.isArray(await listPorts())).toBe(true);
});
