import { copyFileSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { checkArchive } from '../../../rig/archive/check/checkArchive.ts';
import { openArchive } from '../../../rig/archive/openArchive.ts';
import { rebuildArchive } from '../../../rig/archive/rebuildArchive.ts';
import { DELIVERY_RUN, DRY_RUN, type FiledArchive, filedArchive } from '../../support/filedArchive.ts';
import { certificateRig, fileOne } from '../../support/filedCertificates.ts';
import { uniform } from '../../support/random.ts';
import { runSlipwright } from '../../support/runSlipwright.ts';
import { copiedArchive } from './newRun.ts';

let filed: FiledArchive;
beforeAll(async () => {
  filed = await filedArchive([DRY_RUN], [DRY_RUN], [DRY_RUN]);
});
afterAll(() => rmSync(filed.folder, { recursive: true, force: true }));

/** What a check finds wrong, each as 'file: text'. */
async function wrongIn(directory: string): Promise<readonly string[]> {
  const { flaws } = await checkArchive(directory);
  return flaws.filter(({ severity }) => severity === 'wrong').map(({ file, text }) => `${file}: ${text}`);
}

/** Turns one bit somewhere: at the beginning for 0, at the end for 1. */
function flipByte(path: string, share: number): void {
  const bytes = readFileSync(path);
  const at = Math.min(bytes.length - 1, Math.floor(bytes.length * share));
  if (bytes.length > 0) bytes.writeUInt8(bytes.readUInt8(at) ^ 1, at);
  // A run without marks has an empty file of them.
  writeFileSync(path, bytes.length > 0 ? bytes : '!');
}

const SEED = 20261126;
const random = uniform(SEED);
/** Both ends of a file and a place between them. */
const places = (): readonly number[] => [0, random(), 1];

it('finds nothing wrong in an archive as it was filed, and reads every file that is evidence', async () => {
  const { filesRead, flaws } = await checkArchive(filed.directory);
  expect(flaws).toEqual([]);
  // Two pumps, two strip sheets, one bench; three files of each run; three of each of three certificates.
  expect(filesRead).toBe(5 + 2 * 3 + 3 * 3);
});

it.each([
  ['pumps/dredger-return-pump/1.json'],
  ['strips/dredger-return-pump-rebuilt/1.json'],
  ['benches/practice-bench/1.json'],
  [`runs/${DELIVERY_RUN}/journal.log`],
  [`runs/${DRY_RUN}/run.json`],
  [`runs/${DRY_RUN}/marks.jsonl`],
  [`runs/${DRY_RUN}/closing.json`],
  ['certificates/2026-0001.json'],
  ['certificates/2026-0002.jws'],
  ['certificates/2026-0003.pdf'],
])(`names the file with one changed byte, wherever it is (seed ${SEED}): %s`, async (file) => {
  const directory = copiedArchive(filed);
  const path = join(directory, file);
  const whole = readFileSync(path);
  for (const share of places()) {
    flipByte(path, share);
    // A signature is told by the file that it signs.
    expect(await wrongIn(directory), `at ${share}`).toContainEqual(expect.stringContaining(file.replace('.jws', '')));
    writeFileSync(path, whole);
  }
});

it.each([
  ['pumps/dredger-feed-pump/1.json', 'missing'],
  [`runs/${DELIVERY_RUN}/journal.log`, 'missing'],
  [`runs/${DRY_RUN}`, 'rests on run'],
  ['certificates/2026-0001.pdf', 'missing'],
  ['certificates/2026-0003.json', 'missing'],
])('names what is gone: %s', async (file, said) => {
  const directory = copiedArchive(filed);
  rmSync(join(directory, file), { recursive: true });
  expect(await wrongIn(directory)).toContainEqual(expect.stringContaining(said));
});

it('misses a certificate of which every file is gone: in the middle of the chain, and at its end', async () => {
  for (const number of ['2026-0002', '2026-0003']) {
    const directory = copiedArchive(filed);
    for (const ending of ['json', 'jws', 'pdf']) rmSync(join(directory, 'certificates', `${number}.${ending}`));
    expect(await wrongIn(directory)).toContainEqual(expect.stringContaining(`certificates/${number}`));
  }
});

it('tells two certificates with one number, and a chain that was divided', async () => {
  const directory = copiedArchive(filed);
  for (const ending of ['json', 'jws', 'pdf']) {
    const pathOf = (number: string) => join(directory, 'certificates', `${number}.${ending}`);
    copyFileSync(pathOf('2026-0002'), pathOf('2026-0007'));
  }
  const wrong = await wrongIn(directory);
  expect(wrong).toContainEqual(expect.stringMatching(/2026-0007\.pdf: is certificate 2026-0002 under the number/));
  expect(wrong).toContainEqual(expect.stringMatching(/follows 2026-0001, as .* the chain is divided/));
});

it('notes a certificate whose date lies before that of one filed earlier: the clock was set back', async () => {
  const rig = await certificateRig();
  for (const day of ['2026-06-12', '2027-03-01', '2026-06-13', '2026-06-14', '2027-03-02']) {
    await fileOne(rig, undefined, new Date(`${day}T09:00:00Z`));
  }
  const { flaws } = await checkArchive(rig.archive.directory);
  const clock = flaws.filter(({ text }) => text.includes('clock'));
  expect(clock.map(({ severity, file }) => [severity, file])).toEqual([
    ['note', 'certificates/2027-0002.json'],
    ['note', 'certificates/2027-0003.json'],
  ]);
  expect(clock[1]?.text).toContain('issued 2026-06-14T09:00:00Z, before 2027-0001 of 2027-03-01T09:00:00Z');
});

it('tells a certificate of another archive that was laid among these', async () => {
  const directory = copiedArchive(filed);
  const elsewhere = await certificateRig();
  const { paths } = await fileOne(elsewhere, undefined, new Date('2031-01-07T09:00:00Z'));
  for (const path of Object.values(paths)) copyFileSync(path, join(directory, 'certificates', basename(path)));
  expect(await wrongIn(directory)).toContainEqual(
    expect.stringMatching(/2031-0001\.json: says that it is the first, as .* the chain is divided/),
  );
  const { flaws } = await checkArchive(directory);
  expect(flaws).toContainEqual({
    severity: 'note',
    file: 'certificates/2031-0001.pdf',
    text: expect.stringMatching(/a key that this machine does not know/),
  });
});

it('holds a record against the runs that carry it: one that was rewritten with a new sum is found all the same', async () => {
  const directory = copiedArchive(filed);
  const path = join(directory, 'pumps/dredger-feed-pump/1.json');
  writeFileSync(path, readFileSync(path, 'utf8').replace('KB-204', 'KB-205'));
  rmSync(join(directory, 'pumps/dredger-feed-pump/SHA256SUMS'));
  expect(await wrongIn(directory)).toContainEqual(
    expect.stringMatching(/1\.json: is not what it was when it was used/),
  );
});

it('notes what is left of a filing that was cut off, and is clean again after the next start', async () => {
  const directory = copiedArchive(filed);
  const whole = join(directory, 'filing', '2026-0003.whole');
  mkdirSync(whole);
  const pathOf = (ending: string) => join(directory, 'certificates', `2026-0003.${ending}`);
  // Cut off after the first of three files was moved.
  for (const ending of ['jws', 'pdf']) cpSync(pathOf(ending), join(whole, `2026-0003.${ending}`));
  for (const ending of ['jws', 'pdf']) rmSync(pathOf(ending));
  mkdirSync(join(directory, 'filing', '2026-0004.writing'));
  writeFileSync(join(directory, 'filing', '2026-0004.writing', '2026-0004.json'), '{"half');
  expect((await checkArchive(directory)).flaws).toContainEqual(
    expect.objectContaining({ severity: 'note', file: 'filing' }),
  );
  openArchive(directory).close();
  expect((await checkArchive(directory)).flaws).toEqual([]);
});

it('holds the index against the files, and rebuild mends it: another verdict, no database at all', async () => {
  const spoil: ((path: string) => void)[] = [
    (path) => {
      const index = new Database(path);
      index.exec(`UPDATE entries SET entry = replace(entry, '"not proven"', '"pass"') WHERE what = 'certificate'`);
      index.close();
    },
    (path) => writeFileSync(path, 'no database'.repeat(100)),
  ];
  for (const [index, spoilIt] of spoil.entries()) {
    const directory = copiedArchive(filed);
    spoilIt(join(directory, 'index.sqlite'));
    expect(await wrongIn(directory), `${index}`).toContainEqual(expect.stringMatching(/^index\.sqlite/));
    expect(rebuildArchive(directory)).toEqual({ unread: [], cleared: 0 });
    expect((await checkArchive(directory)).flaws).toEqual([]);
  }
});

it('ends with 0 on a whole archive, with 4 where something is wrong, with 2 where there is none', async () => {
  const directory = copiedArchive(filed);
  const check = (of: string) =>
    runSlipwright(['archive', 'check', '--archive', of], { SLIPWRIGHT_KEYS: join(filed.folder, 'keys') });
  const whole = await check(directory);
  expect([whole.exitCode, whole.stdout]).toEqual([0, '20 files read: everything is as it was filed\n']);
  flipByte(join(directory, 'runs', DRY_RUN, 'journal.log'), 0.5);
  const changed = await check(directory);
  expect(changed.exitCode).toBe(4);
  expect(changed.stdout).toMatch(new RegExp(`^WRONG {2}runs/${DRY_RUN}/journal\\.log: expected SHA-256`, 'm'));
  const none = await check(join(directory, 'pumps'));
  expect([none.exitCode, none.stdout]).toEqual([2, '']);
});
