import { join } from 'node:path';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import { certificateFolder, certificatePath, filedNumbers } from '../certificate/certificateFolder.ts';
import { readWithdrawal, type Standing, standingFrom, withdrawnNumbers } from '../certificate/standing.ts';
import { codeOf } from '../errors.ts';
import { RecordError } from './archiveErrors.ts';
import { ArchiveIndex, INDEX_FILE } from './archiveIndex.ts';
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
    this.index = new ArchiveIndex(join(directory, INDEX_FILE));
    if (this.index.isNew) this.refresh();
  }

  putPump(pump: PumpRecord): void {
    this.index.putPump(indexedPump(pump));
  }

  /** Puts a run that is sealed into the index, as its files say; one that is not sealed changes yet and stays out. */
  putRun(id: string): RunListEntry | null {
    let indexed: Indexed<RunListEntry>;
    try {
      const { run, closing } = this.runFolders.glance(id);
      indexed = indexedRun(run, closing, readKeptOutcome(this.runFolders.folderOf(id), id));
    } catch {
      return null; // said when the archive was opened, and by its check
    }
    if (indexed.entry.ending !== 'open') this.index.putRun(indexed);
    return indexed.entry;
  }

  /**
   * Lists a certificate that was filed; the one whose place it takes is listed as replaced from then on. Where the index cannot
   * be written now (a full disk), {@link refresh} adds it later: it is filed.
   */
  putCertificate(data: FindableCertificate): void {
    tolerantly(() => this.putFiled(data));
  }

  /** Lists a certificate as withdrawn, by the notice beside it. */
  putWithdrawal(number: string): void {
    tolerantly(() => this.putWithdrawn(number));
  }

  /** All runs, newest first. Folders without a readable run record are left out. */
  runs(): readonly RunListEntry[] {
    return this.runFolders
      .ids()
      .toReversed()
      .map((id) => this.index.run(id) ?? this.putRun(id))
      .filter((entry) => entry !== null);
  }

  /** Of a pump, newest first. */
  certificatesOf(pumpId: string): readonly CertificateListEntry[] {
    return this.index.certificatesOf(pumpId);
  }

  certificate(number: string): CertificateListEntry | null {
    return this.index.certificate(number);
  }

  find(criteria: FindCriteria): FoundPage {
    return this.index.find(criteria);
  }

  /**
   * Adds what lies in the files and is not in the index.
   *
   * @returns what could not be read and is left out, a sentence each [-]
   */
  refresh(): readonly string[] {
    const pumps = this.index.known('pump');
    const runs = this.index.known('run');
    const certificates = this.index.known('certificate');
    return this.add(
      this.pumpVersions().filter((version) => !pumps.has(version)),
      this.runFolders.ids().filter((id) => !runs.has(id)),
      filedNumbers(this.directory).filter((number) => !certificates.has(number)),
    );
  }

  /**
   * Makes the index anew; whoever finds something meanwhile finds it in the old one.
   *
   * @returns what could not be read and is left out, a sentence each [-]
   */
  rebuild(): readonly string[] {
    let unread: readonly string[] = [];
    this.index.replace(() => {
      unread = this.add(this.pumpVersions(), this.runFolders.ids(), filedNumbers(this.directory));
    });
    return unread;
  }

  close(): void {
    this.index.close();
  }

  private add(pumps: readonly string[], runs: readonly string[], certificates: readonly string[]): readonly string[] {
    return [
      ...this.putEach(pumps, (version) => this.putPumpVersion(version)),
      ...this.putEach(runs, (id) => this.putRun(id)),
      ...this.putEach(certificates, (number) => this.putFiled(this.readCertificate(number))),
      ...this.putEach(withdrawnNumbers(certificateFolder(this.directory)), (number) => this.putWithdrawn(number)),
    ];
  }

  /** In batches; what cannot be read is said and does not keep out the rest. */
  private putEach(items: readonly string[], put: (item: string) => void): readonly string[] {
    const unread: string[] = [];
    for (let start = 0; start < items.length; start += BATCH) {
      this.index.inOneGo(() => {
        for (const item of items.slice(start, start + BATCH)) {
          try {
            put(item);
          } catch (error) {
            if (!(error instanceof RecordError)) throw error;
            unread.push(error.message);
          }
        }
      });
    }
    return unread;
  }

  /** The latest of each, as `<id>/<version>`. */
  private pumpVersions(): readonly string[] {
    return [...this.pumpRecords.latestVersions()].map(([id, version]) => `${id}/${version}`);
  }

  private putPumpVersion(version: string): void {
    this.putPump(this.pumpRecords.latest(version.slice(0, version.indexOf('/'))));
  }

  private putFiled(data: FindableCertificate): void {
    const withdrawal = readWithdrawal(certificateFolder(this.directory), data.number);
    this.index.putCertificate(indexedCertificate(data, standingFrom(withdrawal, null)));
    if (data.replaces === null || this.index.certificate(data.replaces.number)?.standing === 'withdrawn') return;
    const replaced: Standing = { state: 'replaced', by: data.number, reason: data.replaces.reason };
    this.index.putStanding(data.replaces.number, listedStanding(replaced));
  }

  private putWithdrawn(number: string): void {
    const withdrawal = readWithdrawal(certificateFolder(this.directory), number);
    if (withdrawal !== null) this.index.putStanding(number, listedStanding(standingFrom(withdrawal, null)));
  }

  private readCertificate(number: string): FindableCertificate {
    return readMembers(findableCertificate, certificatePath(this.directory, number, 'json'));
  }
}

/** What is filed is filed, whether the index can be written or not. */
function tolerantly(put: () => void): void {
  try {
    put();
  } catch (error) {
    if (!codeOf(error)?.startsWith('SQLITE_')) throw error;
  }
}
