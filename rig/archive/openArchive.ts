import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { CertificateData } from '../../analysis/certificate/certificateData.ts';
import { type BenchRecord, benchRecord } from '../../analysis/records/benchRecord.ts';
import { type PumpRecord, pumpRecord } from '../../analysis/records/pumpRecord.ts';
import type { HoldExclusion, RunRecord } from '../../analysis/records/runRecord.ts';
import { type StripSheet, stripSheet } from '../../analysis/records/stripSheet.ts';
import type { RunResult } from '../../analysis/result.ts';
import { DECODER_VERSION } from '../decode/decodeJournal.ts';
import { messageOf } from '../errors.ts';
import { ArchiveError } from './archiveErrors.ts';
import { ARCHIVE_FOLDERS } from './archiveFolders.ts';
import { ArchiveListing } from './archiveListing.ts';
import { ARCHIVE_README } from './archiveReadme.ts';
import type { DrawnRun } from './drawnRun.ts';
import { FilingDesk } from './filingDesk.ts';
import type { FindCriteria, FoundPage } from './findCriteria.ts';
import type { CertificateListEntry, RunListEntry } from './indexEntries.ts';
import { readKeptDrawing, readKeptResult } from './keptFiles.ts';
import { recordText } from './recordFile.ts';
import { type RecordStore, recordStore } from './recordStore.ts';
import { RUN_FILES } from './runFiles.ts';
import { type ImportedRun, type NewRun, type Recovery, RunStore, type SealedRun } from './runStore.ts';
import type { SourceFile } from './sourceFile.ts';
import { TestDays } from './testDays.ts';
import { writeWholeFile } from './wholeFile.ts';

/**
 * Opens the archive in a folder, which is made if it is not there. Runs that were cut off are sealed up to their last whole line;
 * `recoveries` says which.
 *
 * @throws ArchiveError if the folder cannot be made or written
 */
export function openArchive(directory: string): Archive {
  try {
    for (const folder of ARCHIVE_FOLDERS) mkdirSync(join(directory, folder), { recursive: true });
    // A folder that exists and a file system that is full or read-only: seen now, not at the first byte.
    writeWholeFile(join(directory, 'README.txt'), ARCHIVE_README, 'replace');
    return new Archive(directory);
  } catch (cause) {
    if (cause instanceof ArchiveError) throw cause;
    throw new ArchiveError(directory, `cannot be opened (${messageOf(cause)}); expected a folder that may be written`, {
      cause,
    });
  }
}

export class Archive {
  private readonly pumps: RecordStore<PumpRecord>;
  private readonly benches: RecordStore<BenchRecord>;
  private readonly strips: RecordStore<StripSheet>;
  /** What became of the runs that were found cut off when the archive was opened. */
  readonly recoveries: readonly Recovery[];
  readonly testDays: TestDays;
  private readonly runs: RunStore;
  private readonly listing: ArchiveListing;
  private readonly desk: FilingDesk;

  constructor(readonly directory: string) {
    this.pumps = recordStore(join(directory, 'pumps'), pumpRecord);
    this.benches = recordStore(join(directory, 'benches'), benchRecord);
    this.strips = recordStore(join(directory, 'strips'), stripSheet);
    this.testDays = new TestDays(join(directory, 'days'));
    this.runs = new RunStore(join(directory, 'runs'));
    this.desk = new FilingDesk(directory);
    this.recoveries = this.sealInterrupted();
    this.desk.settleIfFree();
    this.listing = new ArchiveListing(directory, this.pumps, this.runs);
  }

  /**
   * Stores a pump as the next version of it; one that says the same as the latest is not stored again.
   *
   * @param record - anything; the version it comes with does not count [-]
   * @param source - the file it came from, for messages [-]
   * @throws RecordError naming source and fields
   */
  savePump(record: unknown, source?: string): PumpRecord {
    const pump = this.pumps.save(record, source);
    this.listing.putPump(pump);
    return pump;
  }

  /** @throws RecordError if there is no such pump */
  latestPump(id: string): PumpRecord {
    return this.pumps.latest(id);
  }

  /** The latest version of each, by id. */
  listPumps(): readonly PumpRecord[] {
    return this.pumps.list();
  }

  /** As {@link savePump}. */
  saveBench(record: unknown, source?: string): BenchRecord {
    return this.benches.save(record, source);
  }

  latestBench(id: string): BenchRecord {
    return this.benches.latest(id);
  }

  listBenches(): readonly BenchRecord[] {
    return this.benches.list();
  }

  /** As {@link savePump}; a pump has a sheet for each time that it was apart. */
  saveStrip(record: unknown, source?: string): StripSheet {
    return this.strips.save(record, source);
  }

  latestStrip(id: string): StripSheet {
    return this.strips.latest(id);
  }

  listStrips(): readonly StripSheet[] {
    return this.strips.list();
  }

  /** Makes a run's folder, complete but for the journal: `recorder.startRun(folder)` records into it. */
  createRun(newRun: NewRun): { readonly run: RunRecord; readonly folder: string } {
    return this.runs.create(newRun);
  }

  /** As RunStore.import: rejects with a CsvError if the file cannot be taken as evidence; nothing of it is left then. */
  importRun(fileName: string, source: SourceFile, describe: () => Omit<NewRun, 'source'>): Promise<ImportedRun> {
    return this.runs.import(fileName, source, describe);
  }

  /** What a person took out of the fit of a run, or back in, oldest first. @throws RecordError naming the line that is none */
  readExclusions(id: string): readonly HoldExclusion[] {
    return this.runs.readExclusions(id);
  }

  /** Adds to what a person took out. @throws RecordError if it is no such line */
  addExclusion(id: string, exclusion: HoldExclusion): void {
    this.runs.addExclusion(id, exclusion);
  }

  /** @throws RunError (missing, not sealed) or ChangedError (code 'CHANGED', which file) */
  readRun(id: string): SealedRun {
    return this.runs.read(id);
  }

  /** As {@link readRun}, the journal compared by its length alone: to show what was analysed before, never to analyse or certify. */
  glanceSealedRun(id: string): SealedRun {
    return this.runs.glanceSealed(id);
  }

  /** A run's record as it lies there, unchecked: to show, never to analyse. @throws RunError if there is none */
  glanceRun(id: string): RunRecord {
    return this.runs.glance(id).run;
  }

  sealInterrupted(): readonly Recovery[] {
    return this.runs.sealInterrupted();
  }

  /** All runs, newest first. Folders without a readable run record are left out; `recoveries` names them. */
  listRuns(): readonly RunListEntry[] {
    return this.listing.runs();
  }

  /** Keeps the analysis of a sealed run; a cache, replaced by the next. */
  saveResult(id: string, result: RunResult): void {
    writeWholeFile(join(this.runs.folderOf(id), RUN_FILES.result), recordText(result), 'replace');
    this.listing.putRun(id);
  }

  /** The kept analysis, or null if there is none by this version of the analysis and with what is taken out of the fit now. */
  readResult(id: string, analysisVersion: string): RunResult | null {
    const exclusions = JSON.stringify(this.readExclusions(id));
    return readKeptResult(
      this.runs.folderOf(id),
      (result) =>
        result.runId === id &&
        result.analysisVersion === analysisVersion &&
        JSON.stringify(result.exclusions) === exclusions,
    );
  }

  /** Keeps what is drawn of a sealed run; a cache, replaced by the next. */
  saveDrawn(id: string, drawn: DrawnRun): void {
    const { sha256 } = this.runs.glanceSealed(id).closing;
    const kept = { decoderVersion: DECODER_VERSION, journalSha256: sha256.journal, drawn };
    writeWholeFile(join(this.runs.folderOf(id), RUN_FILES.drawn), `${JSON.stringify(kept)}\n`, 'replace');
  }

  /** What is drawn of a sealed run, or null if none is kept that this journal and this decoder would make. */
  readDrawn(id: string): DrawnRun | null {
    const { folder, closing } = this.runs.glanceSealed(id);
    return readKeptDrawing(
      folder,
      ({ decoderVersion, journalSha256 }) =>
        decoderVersion === DECODER_VERSION && journalSha256 === closing.sha256.journal,
    );
  }

  addCertificate(data: CertificateData): void {
    this.listing.putCertificate(data);
  }

  /** Lists a certificate as withdrawn, by the notice beside it. */
  putWithdrawal(number: string): void {
    this.listing.putWithdrawal(number);
  }

  /** Of a pump, newest first. */
  certificatesOf(pumpId: string): readonly CertificateListEntry[] {
    return this.listing.certificatesOf(pumpId);
  }

  /** That of the latest date, which need not be the last; null: none is filed. */
  newestCertificate(): CertificateListEntry | null {
    const [newest] = this.find({ what: 'certificate', page: 1, pageSize: 1 }).found;
    return newest?.what === 'certificate' ? newest.certificate : null;
  }

  /** As it is listed; null: no certificate has the number. */
  listedCertificate(number: string): CertificateListEntry | null {
    return this.listing.certificate(number);
  }

  /** Pumps, runs and certificates by words and properties, page by page. */
  find(criteria: FindCriteria): FoundPage {
    return this.listing.find(criteria);
  }

  /**
   * Adds to the index what lies in the files and is not in it: filed by a program that was killed before it could say so.
   *
   * @returns what could not be read and is left out, a sentence each [-]
   */
  refreshIndex(): readonly string[] {
    return this.listing.refresh();
  }

  /** Makes the index anew from the files. @returns what could not be read and is left out, a sentence each */
  rebuildIndex(): readonly string[] {
    return this.listing.rebuild();
  }

  /** As FilingDesk.file: under the filing lock alone. */
  fileTogether(name: string, files: Readonly<Record<string, string | Uint8Array>>): void {
    this.desk.file(name, files);
  }

  /** Runs `file` while nobody else files a certificate here. @throws ArchiveError if another program does not finish its filing */
  withFilingLock<Value>(file: () => Promise<Value> | Value): Promise<Value> {
    return this.desk.withLock(file);
  }

  close(): void {
    this.listing.close();
  }
}
