import { mkdtempSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FindCriteria } from '../../rig/archive/findCriteria.ts';
import { type Archive, openArchive } from '../../rig/archive/openArchive.ts';
import { rebuildArchive } from '../../rig/archive/rebuildArchive.ts';
import { DELIVERY_RUN, DRY_RUN, type FiledArchive, filedArchive } from '../support/filedArchive.ts';
import { uniform } from '../support/random.ts';
import { copyCertificates, inventCertificates, invented, needRoom } from './manyCertificates.ts';
import { timedProcess } from './timedProcess.ts';

/**
 * Many certificates. Verified: 25 that were filed on the sample runs, copied 400 times into files of their own, each with its data
 * beside it and the chain before it; they were written just now, so that the system has them in memory and no disk is timed.
 * Found: 100,000, each with data of its own in a file of its own. Programs and the rebuilding are timed by the clock, a search by what
 * it computed, whatever else the machine did.
 * Run by hand: node --import tsx tests/speed/archive.ts
 */

const VERIFIED = 10_000;
const DISTINCT = 25;
const MOST_VERIFY_S = 5;
const FOUND = 100_000;
const MOST_REBUILD_S = 60;
const MOST_FIND_MS = 50;
const FINDS = 40;
const SEED = 1;

const SLIPWRIGHT = fileURLToPath(new URL('../../rig/slipwright.mjs', import.meta.url));

function tell(what: string, value: number, unit: string, limit: number): void {
  const isWithin = value <= limit;
  if (!isWithin) process.exitCode = 1;
  const verdict = `${limit} ${unit}: ${isWithin ? 'kept' : 'EXCEEDED'}`;
  console.log(`${what.padEnd(56)} ${`${value.toFixed(2)} ${unit}`.padStart(12)}   ${verdict}`);
}

function timeVerifying(filed: FiledArchive, folder: string): void {
  const paths = copyCertificates(filed, join(folder, 'copies'), VERIFIED);
  // The first round also reads the program itself from disk.
  const times = [0, 1, 2].map(() =>
    timedProcess([SLIPWRIGHT, 'verify', '--archive', filed.directory, ...paths], folder),
  );
  for (const { output } of times) {
    const whole = output.match(/\.pdf: whole$/gm)?.length;
    if (whole !== VERIFIED) throw new Error(`expected ${VERIFIED} whole certificates, got ${whole}`);
  }
  const [best] = times.toSorted((a, b) => a.wallS - b.wallS);
  tell(`${VERIFIED} certificates verified, by the clock`, best?.wallS ?? Number.NaN, 's', MOST_VERIFY_S);
  console.log(
    `  all rounds ${times.map(({ wallS, processorS }) => `${wallS.toFixed(2)} s (${processorS.toFixed(1)} s of processor)`).join(', ')}`,
  );
}

/** Longest of many searches, as computed [ms]. */
function longestMs(archive: Archive, criteria: (index: number) => Record<string, unknown>, least: number): number {
  const next = uniform(SEED);
  const times = Array.from({ length: FINDS }, () => {
    const wanted: FindCriteria = { page: 1, pageSize: 50, ...criteria(Math.floor(next() * FOUND)) };
    const begun = process.cpuUsage();
    const { total } = archive.find(wanted);
    const { user, system } = process.cpuUsage(begun);
    if (total < least) throw new Error(`found ${total} of ${JSON.stringify(wanted)}, expected ${least} at least`);
    return (user + system) / 1e3;
  });
  return Math.max(...times);
}

function timeIndex(filed: FiledArchive, folder: string): void {
  const directory = join(folder, 'many');
  openArchive(directory).close();
  const bytes = inventCertificates(filed, join(directory, 'certificates'), FOUND);
  console.log(`${FOUND} certificates with ${(bytes / 1e9).toFixed(1)} GB of data written`);
  const begunAtMs = performance.now();
  const begun = process.cpuUsage();
  const { unread } = rebuildArchive(directory);
  const { user, system } = process.cpuUsage(begun);
  if (unread.length > 0) throw new Error(`${unread.length} were not read: ${unread[0]}`);
  tell('index rebuilt from the files, by the clock', (performance.now() - begunAtMs) / 1e3, 's', MOST_REBUILD_S);
  console.log(`  ${((user + system) / 1e6).toFixed(1)} s of processor`);
  const archive = openArchive(directory);
  try {
    const finds: readonly (readonly [string, (index: number) => Record<string, unknown>, number])[] = [
      ['by its serial number', (index) => ({ serialNumber: invented(index).serialNumber }), 1],
      ['by words', (index) => ({ words: invented(index).machine.split(' (')[0] }), 1],
      ['by a word that all have', () => ({ words: 'feed' }), FOUND],
      ['by the beginning of a word', () => ({ words: 'dre' }), 1],
      ['by verdict and day', () => ({ outcome: 'not proven', from: '1990-01-01', to: '2009-12-31' }), 1],
      ['first page of the list', () => ({ what: 'certificate' }), FOUND],
      ['any page of the list', (index) => ({ what: 'certificate', page: 1 + Math.floor(index / 50) }), FOUND],
    ];
    for (const [what, criteria, least] of finds) {
      tell(`${what}, longest of ${FINDS}`, longestMs(archive, criteria, least), 'ms', MOST_FIND_MS);
    }
  } finally {
    archive.close();
  }
}

const kinds = [[DRY_RUN], [DRY_RUN, DELIVERY_RUN], [DELIVERY_RUN]] as const;
needRoom(tmpdir(), 10e9);
const filed = await filedArchive(
  ...Array.from({ length: DISTINCT }, (_, index) => kinds[index % kinds.length] ?? [DRY_RUN]),
);
const folder = mkdtempSync(join(tmpdir(), 'slipwright-speed-'));
try {
  if (process.argv[2] !== 'index') timeVerifying(filed, folder);
  rmSync(join(folder, 'copies'), { recursive: true, force: true });
  if (process.argv[2] !== 'verify') timeIndex(filed, folder);
} finally {
  rmSync(folder, { recursive: true, force: true });
  rmSync(filed.folder, { recursive: true, force: true });
}
console.log(
  `load of this machine meanwhile: ${loadavg()
    .map((load) => load.toFixed(1))
    .join(', ')}`,
);
