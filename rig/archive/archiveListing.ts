import { join } from 'node:path';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import { certificateFolder, certificatePath, filedNumbers } from '../certificate/certificateFolder.ts';
import { readWithdrawal, type Standing, standingFrom, withdrawnNumbers } from '../certificate/standing.ts';
import { ArchiveIndex } from './archiveIndex.ts';
import type { FindCriteria, FoundPage } from './findCriteria.ts';
import {
  type CertificateListEntry,
  type FindableCertificate,
  findableCertificate,
  type Indexed,
  indexedCertificate,
  indexedPump,
  indexedRun,
  listedStanding,
  type RunListEntry,
} from './indexEntries.ts';
import { readMembers } from './jsonMembers.ts';
import { readKeptOutcome } from './keptFiles.ts';
import type { RecordStore } from './recordStore.ts';
import type { RunStore } from './runStore.ts';

/** Entries are written so many at a time: one sync of the disk for all of them. */
const BATCH = 1000;

/** What lies in an archive, listed and found: the index, and how it is filled from the files. */
export class ArchiveListing {
  private readonly index: ArchiveIndex;

  constructor(
    private readonly directory: string,
    private readonly pumpRecords: RecordStore<PumpRecord>,
    private readonly runFolders: RunStore,
  ) {
    this.index = new ArchiveIndex(join(directory, 'index.sqlite'));
    if (this.index.isNew) this.refresh();
  }

  putPump(pump: PumpRecord): void {
    this.index.putPump(indexedPump(pump));
  }

  /** Puts a run that is sealed into the index, as its files say; one that is not sealed changes yet and stays out. */
  putRun(id: string): RunListEntry | null {
    const indexed = this.readRun(id);
    if (indexed !== null && indexed.entry.ending !== 'open') this.index.putRun(indexed);
    return indexed?.entry ?? null;
  }

  /** Puts a certificate into the index; the one whose place it takes is listed as replaced from then on. */
  putCertificate(data: FindableCertificate): void {
    const withdrawal = readWithdrawal(certificateFolder(this.directory), data.number);
    this.index.putCertificate(indexedCertificate(data, standingFrom(withdrawal, null)));
    if (data.replaces === null || this.index.certificate(data.replaces.number)?.standing === 'withdrawn') return;
    const replaced: Standing = { state: 'replaced', by: data.number, reason: data.replaces.reason };
    this.index.putStanding(data.replaces.number, listedStanding(replaced));
  }

  /** Lists a certificate as withdrawn. */
  putWithdrawal(number: string): void {
    const withdrawal = readWithdrawal(certificateFolder(this.directory), number);
    if (withdrawal !== null) this.index.putStanding(number, listedStanding(standingFrom(withdrawal, null)));
  }

  /** All runs, newest first. Folders without a readable run record are left out. */
  runs(): readonly RunListEntry[] {
    return this.runFolders
      .ids()
      .toReversed()
      .map((id) => this.index.run(id) ?? this.putRun(id))
      .filter((entry) => entry !== null);
  }

  /** Newest first. */
  certificates(): readonly CertificateListEntry[] {
    return this.index.certificates();
  }

  certificate(number: string): CertificateListEntry | null {
    return this.index.certificate(number);
  }

  find(criteria: FindCriteria): FoundPage {
    return this.index.find(criteria);
  }

  /** Adds what lies in the files and is not in the index. @throws RecordError naming a file that cannot be read */
  refresh(): void {
    const pumps = this.index.known('pump');
    const runs = this.index.known('run');
    const certificates = this.index.known('certificate');
    this.inBatches(
      this.pumpVersions().filter((version) => !pumps.has(version)),
      (version) => this.putPumpVersion(version),
    );
    this.inBatches(
      this.runFolders.ids().filter((id) => !runs.has(id)),
      (id) => this.putRun(id),
    );
    this.inBatches(
      filedNumbers(this.directory).filter((number) => !certificates.has(number)),
      (number) => this.putCertificate(this.readCertificate(number)),
    );
    for (const number of withdrawnNumbers(certificateFolder(this.directory))) this.putWithdrawal(number);
  }

  /**
   * Makes the index anew. The files are read first, so that the index is closed to others for the writing alone; what is filed
   * meanwhile is added afterwards.
   *
   * @throws RecordError naming a file that cannot be read; the index is as it was then
   */
  rebuild(): void {
    const pumps = this.pumpVersions();
    const runs = this.runFolders.ids().map((id) => this.readRun(id));
    const certificates = filedNumbers(this.directory).map((number) => this.readCertificate(number));
    this.index.replace(() => {
      for (const version of pumps) this.putPumpVersion(version);
      for (const run of runs) if (run !== null && run.entry.ending !== 'open') this.index.putRun(run);
      for (const certificate of certificates) this.putCertificate(certificate);
    });
    this.refresh();
  }

  close(): void {
    this.index.close();
  }

  private inBatches<Item>(items: readonly Item[], put: (item: Item) => void): void {
    for (let start = 0; start < items.length; start += BATCH) {
      this.index.inOneGo(() => items.slice(start, start + BATCH).forEach(put));
    }
  }

  /** The latest of each, as `<id>/<version>`. */
  private pumpVersions(): readonly string[] {
    return [...this.pumpRecords.latestVersions()].map(([id, version]) => `${id}/${version}`);
  }

  private putPumpVersion(version: string): void {
    this.putPump(this.pumpRecords.latest(version.slice(0, version.indexOf('/'))));
  }

  /** Null where there is no readable record: said when the archive was opened, and by its check. */
  private readRun(id: string): Indexed<RunListEntry> | null {
    try {
      const { run, closing } = this.runFolders.glance(id);
      return indexedRun(run, closing, readKeptOutcome(this.runFolders.folderOf(id), id));
    } catch {
      return null;
    }
  }

  private readCertificate(number: string): FindableCertificate {
    return readMembers(findableCertificate, certificatePath(this.directory, number, 'json'));
  }
}
