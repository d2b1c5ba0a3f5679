import { execFileSync } from 'node:child_process';
import { createWriteStream, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ZipFile } from 'yazl';
import { z } from 'zod';
import { checkArchive } from '../../../rig/archive/check/checkArchive.ts';
import { exportHistory } from '../../../rig/archive/history/exportHistory.ts';
import { importHistory } from '../../../rig/archive/history/importHistory.ts';
import { UNPACK_LIMITS, type UnpackLimits, unpackZip } from '../../../rig/archive/history/unpackZip.ts';
import { measureFile } from '../../../rig/archive/measureFile.ts';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { readRunReadings } from '../../../rig/decode/readRunReadings.ts';
import { fileRunCertificate } from '../../../rig/session/fileRunCertificate.ts';
import { DRY_RUN, type FiledArchive, filedArchive } from '../../support/filedArchive.ts';
import { runOutsideTool } from '../../support/outsideTool.ts';
import { temporaryArchive, temporaryFolder } from './newRun.ts';

const PUMP = 'dredger-feed-pump';

let filed: FiledArchive;
let zip: string;
/** The export, unpacked. */
let unpacked: string;
beforeAll(async () => {
  filed = await filedArchive([DRY_RUN], [DRY_RUN]);
  zip = join(filed.folder, 'history.zip');
  unpacked = join(filed.folder, 'unpacked');
  const archive = openArchive(filed.directory);
  await exportHistory(archive, PUMP, zip);
  archive.close();
  mkdirSync(unpacked);
  await unpackZip(zip, unpacked, () => true);
});
afterAll(() => rmSync(filed.folder, { recursive: true, force: true }));

type Content = ReadonlyMap<string, Buffer>;

function contentOf(folder: string): Content {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(
    files.map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [path.slice(folder.length + 1), readFileSync(path)];
    }),
  );
}

/** A zip with other content, its own sums made anew where that is asked: somebody who knows how it is made. */
async function zipOf(content: Content, hasNewSums = true): Promise<string> {
  const folder = temporaryFolder();
  const path = join(folder, 'altered.zip');
  const zipFile = new ZipFile();
  const lines: string[] = [];
  for (const [name, bytes] of content) {
    if (name === 'SHA256SUMS' && hasNewSums) continue;
    zipFile.addBuffer(bytes, name);
    writeFileSync(join(folder, 'one'), bytes);
    lines.push(`${measureFile(join(folder, 'one')).sha256}  ${name}`);
  }
  if (hasNewSums) zipFile.addBuffer(Buffer.from(`${lines.join('\n')}\n`), 'SHA256SUMS');
  zipFile.end();
  await pipeline(zipFile.outputStream, createWriteStream(path));
  return path;
}

function flipped(bytes: Buffer): Buffer {
  const other = Buffer.from(bytes);
  const middle = Math.floor(other.length / 2);
  other.writeUInt8(other.readUInt8(middle) ^ 1, middle);
  return other;
}

it('packs records, runs, certificates, readings and a page; common tools open it and find every sum right', () => {
  const names = [...contentOf(unpacked).keys()];
  for (const name of [
    'index.html',
    'README.txt',
    'history.json',
    `pumps/${PUMP}/1.json`,
    `runs/${DRY_RUN}/journal.log`,
  ]) {
    expect(names).toContain(name);
  }
  expect(names.filter((name) => name.startsWith('certificates/'))).toHaveLength(2 * 3);
  expect(names.some((name) => name.includes('return-pump'))).toBe(false);
  const tested = runOutsideTool('unzip', ['-tq', zip]);
  if (tested !== null) expect(tested).toMatchObject({ exitCode: 0 });
  if (existsSync('/usr/bin/sha256sum')) {
    const said = execFileSync('/usr/bin/sha256sum', ['--check', '--strict', 'SHA256SUMS'], {
      cwd: unpacked,
      encoding: 'utf8',
    });
    expect(said.trim().split('\n')).toHaveLength(names.length - 1);
  }
});

it('has a page without script, in which every link leads to a file of the zip', () => {
  const page = readFileSync(join(unpacked, 'index.html'), 'utf8');
  const links = [...page.matchAll(/href="([^"]+)"/g)].map(([, path]) => path ?? '');
  expect(links.length).toBeGreaterThan(15);
  expect(links.filter((path) => !existsSync(join(unpacked, path)))).toEqual([]);
  expect(page).not.toMatch(/<script|https?:\/\//);
  for (const words of ['KB-204', '2026-0001', '2026-0002', 'SPECIMEN']) expect(page).toContain(words);
});

it('gives the readings as RFC 4180 has it, every digit of them, with the columns described', () => {
  const path = join(unpacked, 'readings', `${DRY_RUN}.csv`);
  const csv = readFileSync(path, 'utf8');
  const rows = z.array(z.array(z.string())).parse(parse(csv, { relax_column_count: false, record_delimiter: '\r\n' }));
  const archive = temporaryArchive(filed.directory);
  const { folder, run } = archive.readRun(DRY_RUN);
  const { readings } = readRunReadings(folder, run);
  expect(rows.length - 1).toBe(readings.elapsedS.length);
  const at = rows[0]?.indexOf('suctionPressure [Pa(a)]') ?? -1;
  expect(rows.slice(1).map((row) => Number(row[at]))).toEqual([...(readings.channels.suctionPressure?.values ?? [])]);
  expect(rows.slice(1).map(([elapsed]) => Number(elapsed))).toEqual([...readings.elapsedS]);
  const described = z.object({
    '@context': z.literal('http://www.w3.org/ns/csvw'),
    url: z.literal(`${DRY_RUN}.csv`),
    tableSchema: z.object({ columns: z.array(z.object({ titles: z.string() })) }),
  });
  const metadata = described.parse(JSON.parse(readFileSync(`${path}-metadata.json`, 'utf8')));
  expect(metadata.tableSchema.columns.map(({ titles }) => titles)).toEqual(rows[0]);
});

it('goes into another archive byte for byte, is found there, and checks clean; a second time nothing is taken', async () => {
  const other = temporaryArchive();
  const first = await importHistory(other, zip);
  expect(first.record.history).toMatchObject({ pumpId: PUMP, runs: expect.arrayContaining([DRY_RUN]) });
  for (const [name, bytes] of contentOf(unpacked)) {
    if (!/^(?:pumps|strips|benches|runs|certificates)\//.test(name)) continue;
    expect(readFileSync(join(other.directory, name)).equals(bytes), name).toBe(true);
  }
  expect((await checkArchive(other.directory)).flaws).toEqual([]);
  expect(other.certificatesOf('dredger-feed-pump').map(({ number }) => number)).toEqual(['2026-0002', '2026-0001']);
  expect((await importHistory(other, zip)).taken).toBe(0);
  expect(readdirSync(join(other.directory, 'filing'))).toEqual([]);
});

it('takes a certificate whose chain runs through others, and a certificate filed here goes on from it', async () => {
  const content = new Map(contentOf(unpacked));
  for (const ending of ['json', 'jws', 'pdf']) content.delete(`certificates/2026-0001.${ending}`);
  const manifest =
    content
      .get('history.json')
      ?.toString()
      .replace(/"2026-0002",\s*"2026-0001"/, '"2026-0002"') ?? '';
  content.set('history.json', Buffer.from(manifest));
  const other = temporaryArchive();
  await importHistory(other, await zipOf(content));
  expect((await checkArchive(other.directory)).flaws).toEqual([]);
  const filedHere = await fileRunCertificate(other, [DRY_RUN], 'H. Wiese (invented)');
  expect(filedHere).toMatchObject({ ok: true, value: { number: '2026-0003' } });
  expect((await checkArchive(other.directory)).flaws).toEqual([]);
});

it.each([
  `runs/${DRY_RUN}/journal.log`,
  `runs/${DRY_RUN}/closing.json`,
  `pumps/${PUMP}/1.json`,
  'certificates/2026-0001.pdf',
  'certificates/2026-0002.json',
])(
  'refuses a history in which a byte of %s was changed and its sums made anew, naming it, and takes nothing',
  async (name) => {
    const content = new Map(contentOf(unpacked));
    content.set(name, flipped(content.get(name) ?? Buffer.alloc(0)));
    const other = temporaryArchive();
    await expect(importHistory(other, await zipOf(content))).rejects.toMatchObject({
      code: 'TRANSFER',
      message: expect.stringContaining(name),
    });
    for (const folder of ['runs', 'pumps', 'imports', 'filing']) {
      expect(readdirSync(join(other.directory, folder)), folder).toEqual([]);
    }
  },
);

it('refuses a byte that was changed without new sums, a file that is gone, one that was added, and no history at all', async () => {
  const other = temporaryArchive();
  const content = contentOf(unpacked);
  const without = new Map(content);
  without.delete(`readings/${DRY_RUN}.csv`);
  const changed = new Map(content).set('README.txt', Buffer.from('another'));
  const added = new Map(content).set(`attachments/${'0'.repeat(64)}`, Buffer.from('a stranger'));
  for (const [altered, named] of [
    [changed, 'README.txt'],
    [without, `readings/${DRY_RUN}.csv`],
    [added, 'attachments'],
    [new Map([['README.txt', Buffer.from('')]]), 'history.json'],
  ] as const) {
    const path = await zipOf(altered, false);
    await expect(importHistory(other, path)).rejects.toMatchObject({ message: expect.stringContaining(named) });
  }
});

it('refuses two certificates with one number, and leaves the one that is here as it is', async () => {
  const other = await filedArchive([DRY_RUN]);
  const archive = temporaryArchive(other.directory);
  const path = join(other.directory, 'certificates', '2026-0001.pdf');
  const before = readFileSync(path);
  await expect(importHistory(archive, zip)).rejects.toMatchObject({
    code: 'TRANSFER',
    message: expect.stringContaining('Two certificates bear one number: 2026-0001'),
  });
  expect(readFileSync(path).equals(before)).toBe(true);
  expect(existsSync(join(other.directory, 'certificates', '2026-0002.pdf'))).toBe(false);
  rmSync(other.folder, { recursive: true, force: true });
});

/** A zip of one file, whose name is then changed in its bytes: no zip library writes such names. */
async function zipNamed(name: string): Promise<string> {
  const stand = 'x'.repeat(name.length);
  const path = await zipOf(new Map([[stand, Buffer.from('content')]]), false);
  writeFileSync(path, Buffer.from(readFileSync(path).toString('latin1').replaceAll(stand, name), 'latin1'));
  return path;
}

it.each([
  '../outside.json',
  '/etc/outside',
  'runs/../../outside',
  'C:/outside',
  'runs\\..\\outside',
  'pumps/a/1.json/../../../outside',
])('refuses a name that leads out of its folder: %s', async (name) => {
  const other = temporaryArchive();
  await expect(importHistory(other, await zipNamed(name))).rejects.toMatchObject({ code: 'TRANSFER' });
  expect(existsSync(join(dirname(other.directory), 'outside'))).toBe(false);
  expect(readdirSync(join(other.directory, 'filing'))).toEqual([]);
});

it('refuses a file that swells without end, too many files, too many bytes, a name twice, and a zip that was cut off', async () => {
  const other = temporaryArchive();
  const named = `attachments/${'0'.repeat(64)}`;
  const refusal = async (path: string, limits: UnpackLimits = UNPACK_LIMITS): Promise<string> => {
    try {
      await importHistory(other, path, limits);
      return 'taken';
    } catch (error) {
      return error instanceof Error ? error.message : '';
    }
  };
  expect(await refusal(await zipOf(new Map([[named, Buffer.alloc(2e6)]]), false))).toMatch(
    /0000" swells from \d+ to 2000000 bytes/,
  );
  expect(await refusal(zip, { ...UNPACK_LIMITS, files: 3 })).toMatch(/holds \d+ files, and 3 are the most/);
  expect(await refusal(zip, { ...UNPACK_LIMITS, bytes: 1000 })).toContain('over 1000 bytes');
  const twice = join(temporaryFolder(), 'twice.zip');
  const zipFile = new ZipFile();
  for (const text of ['one', 'two']) zipFile.addBuffer(Buffer.from(text), 'README.txt');
  zipFile.end();
  await pipeline(zipFile.outputStream, createWriteStream(twice));
  expect(await refusal(twice)).toContain('"README.txt" stands in it twice');
  const whole = readFileSync(zip);
  const torn = join(temporaryFolder(), 'torn.zip');
  writeFileSync(torn, whole.subarray(0, whole.length - 100));
  expect(await refusal(torn)).toContain('is no zip that can be read');
});

it('writes no zip over another file, none of a pump that is not known, and leaves nothing half written', async () => {
  const archive = temporaryArchive(filed.directory);
  await expect(exportHistory(archive, PUMP, zip)).rejects.toMatchObject({ code: 'ARCHIVE' });
  const folder = temporaryFolder();
  await expect(exportHistory(archive, 'no-such-pump', join(folder, 'a.zip'))).rejects.toMatchObject({ code: 'RECORD' });
  await expect(exportHistory(archive, PUMP, join(folder, 'no', 'a.zip'))).rejects.toMatchObject({ code: 'ARCHIVE' });
  expect(readdirSync(folder)).toEqual([]);
});
