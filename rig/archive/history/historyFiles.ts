import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runRecord } from '../../../analysis/records/runRecord.ts';
import type { CertificateListEntry, RunListEntry } from '../indexEntries.ts';
import type { Archive } from '../openArchive.ts';
import { readRecordFile } from '../recordFile.ts';
import { RUN_FILES } from '../runFiles.ts';

export type History = {
  readonly pumpId: string;
  /** Sealed ones, newest first. */
  readonly runs: readonly RunListEntry[];
  readonly certificates: readonly CertificateListEntry[];
  /** Runs that are still open and so are left out. */
  readonly openRuns: readonly string[];
  /** Of every file, from the archive's folder, with '/' between. */
  readonly files: readonly string[];
};

/** Caches and locks stay behind. */
const LEFT_BEHIND: ReadonlySet<string> = new Set([RUN_FILES.result, RUN_FILES.drawn, RUN_FILES.lock]);

/**
 * Everything that an archive has of a pump: its records and those of the benches it ran on, test days, sealed runs,
 * certificates with what was said of them since, attachments that any of these name.
 *
 * @param archive - the archive [-]
 * @param pumpId - id of the pump [-]
 * @throws RecordError if there is no such pump, and no run or certificate of one
 */
export function historyOf(archive: Archive, pumpId: string): History {
  const { directory } = archive;
  const ofPump = archive.listRuns().filter((run) => run.pumpId === pumpId);
  const runs = ofPump.filter(({ ending }) => ending !== 'open');
  const certificates = archive.certificatesOf(pumpId);
  if (runs.length === 0 && certificates.length === 0) archive.latestPump(pumpId); // says that there is none
  const records = runs.map(({ id }) => readRecordFile(runRecord, join(directory, 'runs', id, RUN_FILES.run)));
  const benchIds = new Set(records.map(({ bench }) => bench.id));
  const stripIds = new Set([
    ...archive.listStrips().flatMap((sheet) => (sheet.pumpId === pumpId ? [sheet.id] : [])),
    ...records.flatMap(({ stripSheet }) => (stripSheet === null ? [] : [stripSheet.id])),
  ]);
  const numbers = new Set(certificates.map(({ number }) => number));
  const isOfCertificate = (name: string): boolean =>
    /^key-\d{4}\.(?:json|jws)$/.test(name) || numbers.has(/^(\d{4}-\d{4,6})\./.exec(name)?.[1] ?? '');
  const files = [
    ...filesIn(directory, `pumps/${pumpId}`),
    ...[...stripIds].sort().flatMap((id) => filesIn(directory, `strips/${id}`)),
    ...[...benchIds].sort().flatMap((id) => filesIn(directory, `benches/${id}`)),
    ...filesIn(directory, 'days').filter((path) => path === `days/${pumpId}.jsonl`),
    ...runs.flatMap(({ id }) =>
      filesIn(directory, `runs/${id}`).filter((path) => !LEFT_BEHIND.has(path.split('/')[2] ?? '')),
    ),
    ...filesIn(directory, 'certificates').filter((path) => isOfCertificate(path.slice('certificates/'.length))),
  ];
  return {
    pumpId,
    runs,
    certificates,
    openRuns: ofPump.flatMap(({ id, ending }) => (ending === 'open' ? [id] : [])),
    files: [...files, ...attachmentsNamedIn(directory, files)],
  };
}

/** Names that begin with a dot are of somebody who is writing at this moment. */
function filesIn(directory: string, folder: string): readonly string[] {
  if (!existsSync(join(directory, folder))) return [];
  return readdirSync(join(directory, folder), { withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('.'))
    .map(({ name }) => `${folder}/${name}`)
    .sort();
}

function attachmentsNamedIn(directory: string, files: readonly string[]): readonly string[] {
  const attachments = filesIn(directory, 'attachments');
  if (attachments.length === 0) return [];
  const texts = files
    .filter((path) => path.endsWith('.json'))
    .map((path) => readFileSync(join(directory, path), 'utf8'));
  return attachments.filter((path) => texts.some((text) => text.includes(path.slice('attachments/'.length))));
}
