import { once } from 'node:events';
import { SerialPort } from 'serialport';
import { afterEach, expect, it } from 'vitest';
import { checksum } from '../../../rig/practiceBench/checksum.ts';
import { openPracticePty } from '../../../rig/practiceBench/practicePty.ts';
import { type RunningPracticeBench, startPracticeBench } from '../../../rig/practiceBench/startPracticeBench.ts';

const running: RunningPracticeBench[] = [];

async function start(options: Parameters<typeof startPracticeBench>[0]): Promise<RunningPracticeBench> {
  const bench = await startPracticeBench(options);
  running.push(bench);
  return bench;
}

afterEach(async () => {
  await Promise.all(running.splice(0).map((bench) => bench.stop()));
});

async function openPort(path: string): Promise<SerialPort> {
  const port = new SerialPort({ path, baudRate: 115_200, autoOpen: false });
  await new Promise<void>((resolve, reject) => port.open((error) => (error === null ? resolve() : reject(error))));
  return port;
}

async function closePort(port: SerialPort): Promise<void> {
  const closed = once(port, 'close');
  port.close();
  await closed;
}

/** Reads whole lines until one is the wanted one; the first piece may be torn and is left out. */
async function readUntil(port: SerialPort, isWanted: (line: string) => boolean): Promise<string[]> {
  const lines: string[] = [];
  let rest = '';
  let isFirst = true;
  for await (const chunk of port) {
    const pieces = `${rest}${Buffer.from(chunk).toString('latin1')}`.split('\r\n');
    rest = pieces.pop() ?? '';
    for (const line of pieces) {
      if (!isFirst) lines.push(line);
      isFirst = false;
    }
    if (lines.some(isWanted)) return lines;
  }
  throw new Error('the line ended');
}

function speedRPerMin(line: string): number {
  return line.startsWith('$') ? Number(line.split(',')[5]) : Number.NaN;
}

it('serves a real pseudo-terminal: right checksums, and commands turn the motor', async () => {
  const bench = await start({ seed: 11, scenario: 'healthy', speedUp: 20 });
  const port = await openPort(bench.path);
  port.write('flood\nspeed 900\nnonsense\n');
  const lines = await readUntil(port, (line) => speedRPerMin(line) > 880);
  for (const line of lines) {
    const [, body, sum] = /^[$#](.*)\*([0-9A-F]{4})$/.exec(line) ?? [];
    expect(checksum(body ?? ''), line).toBe(sum);
  }
  expect(lines.some((line) => line.startsWith("#did not understand 'nonsense'"))).toBe(true);
  // Nothing is echoed: what was written never comes back as a line of its own.
  expect(lines.filter((line) => !line.startsWith('$') && !line.startsWith('#'))).toEqual([]);
  const truth = await bench.truth();
  expect(truth.scenario).toBe('healthy');
  expect(truth.priming.motorStartS).toBeGreaterThan(0);
  port.destroy();
});

it('goes on when its reader leaves and comes back, and the counter shows the gap', async () => {
  const bench = await start({ seed: 12, scenario: 'worn', speedUp: 20, readingsPerS: 50 });
  const sequenceOf = (lines: readonly string[]): number =>
    Number(
      lines
        .filter((line) => line.startsWith('$'))
        .at(-1)
        ?.slice(1)
        .split(',')[0],
    );

  const first = await openPort(bench.path);
  const before = sequenceOf(await readUntil(first, (line) => line.startsWith('$')));
  first.destroy();
  await once(first, 'close');

  // Nobody reads: kernel buffer and queue fill within two seconds at 1000 lines/s; the bench must not stop or swell.
  const deadline = Date.now() + 20_000;
  let truthAsked = 0;
  while (truthAsked < 3 && Date.now() < deadline) {
    await bench.truth();
    truthAsked += 1;
  }
  const second = await openPort(bench.path);
  const after = sequenceOf(await readUntil(second, (line) => line.startsWith('$')));
  expect(after).toBeGreaterThan(before);
  second.destroy();
});

it('drops whole pieces when nobody reads, and sends again once somebody does', async () => {
  const limitBytes = 4096;
  const pty = await openPracticePty(limitBytes);
  const piece = `${'x'.repeat(98)}\r\n`;
  // A pseudo-terminal holds some 20 kB; 1 MB cannot go anywhere.
  const sent = Array.from({ length: 10_000 }, () => pty.send(piece)).filter((wasSent) => wasSent).length;
  expect(sent).toBeLessThan(1000);
  expect(pty.send(piece)).toBe(false);

  const port = await openPort(pty.path);
  const lines = await readUntil(port, (line) => line.length === 98);
  expect(lines.every((line) => line === piece.trim())).toBe(true);
  await closePort(port);
});

it('says NO_PTY where there is no pseudo-terminal', async () => {
  const noneHere = async () => ({
    open() {
      throw new Error('open() is not supported here');
    },
  });
  await expect(openPracticePty(4096, noneHere)).rejects.toMatchObject({ code: 'NO_PTY' });
  await expect(openPracticePty(4096, () => Promise.reject(new Error('no binary')))).rejects.toMatchObject({
    code: 'NO_PTY',
    message: expect.stringContaining('no binary'),
  });
});

it('ends when it is told to, tells no more truth then, and may be told twice', async () => {
  const bench = await start({ seed: 13, scenario: 'healthy' });
  await bench.stop();
  await bench.stop();
  await expect(bench.truth()).rejects.toMatchObject({ code: 'PRACTICE_BENCH_GONE' });
});

it('says that it did not start when its options make no sense', async () => {
  await expect(startPracticeBench({ seed: 1.5, scenario: 'healthy' })).rejects.toMatchObject({
    code: 'PRACTICE_BENCH_GONE',
  });
});
