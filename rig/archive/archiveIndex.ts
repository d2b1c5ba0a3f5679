import Database from 'better-sqlite3';
import { z } from 'zod';
import { codeOf, messageOf } from '../errors.ts';
import { ArchiveError, DamagedIndexError } from './archiveErrors.ts';
import { type FindCriteria, type FoundPage, matchOf, tag } from './findCriteria.ts';
import {
  type CertificateListEntry,
  type FoundEntry,
  foundEntry,
  type Indexed,
  type PumpListEntry,
  type RunListEntry,
} from './indexEntries.ts';
import { INDEX_MIGRATIONS } from './indexMigrations.ts';

/** Its name in an archive. */
export const INDEX_FILE = 'index.sqlite';

/** How long to wait for another program that writes here: rebuilding a large index takes some seconds [ms]. */
const PATIENCE_MS = 30_000;

/** Places in an order of time: so many to a millisecond; 2^53 is reached in the year 2248, and pumps stand above it. */
const PLACES_PER_MS = 1024;
const FIRST_PUMP_PLACE = 9.0e15;

const MS_PER_DAY = 86_400_000;

/** index.sqlite: what can be listed and found without opening every file. Everything in it can be made again from the files. */
export class ArchiveIndex {
  private readonly database: Database.Database;
  /** What is put in, once prepared. */
  private readonly statements: ReturnType<typeof prepareStatements>;
  /** Nothing is in it yet, or nothing of this version's making: it is to be filled from the files. */
  readonly isNew: boolean;

  /** @throws ArchiveError if the file is no index, or one of a later version of this program */
  constructor(path: string) {
    try {
      this.database = new Database(path, { timeout: PATIENCE_MS });
      this.database.pragma('journal_mode = WAL');
      this.database.pragma('synchronous = FULL');
      this.isNew = this.migrate(path);
      this.statements = prepareStatements(this.database);
    } catch (cause) {
      if (!isDamage(cause)) throw cause;
      const why = `is no index any more (${messageOf(cause)}); the records are not touched by that: run 'archive rebuild'`;
      throw new DamagedIndexError(path, why, { cause });
    }
  }

  run(id: string): RunListEntry | null {
    const entry = this.entry('run', id);
    return entry?.what === 'run' ? entry.run : null;
  }

  certificate(number: string): CertificateListEntry | null {
    const entry = this.entry('certificate', number);
    return entry?.what === 'certificate' ? entry.certificate : null;
  }

  putPump({ entry, words }: Indexed<PumpListEntry>): void {
    this.put({ what: 'pump', pump: entry }, entry.pumpId, FIRST_PUMP_PLACE, words);
  }

  putRun({ entry, words }: Indexed<RunListEntry>): void {
    this.put({ what: 'run', run: entry }, entry.id, placeAt(entry.startedAtUtc), words);
  }

  putCertificate({ entry, words }: Indexed<CertificateListEntry>): void {
    this.put({ what: 'certificate', certificate: entry }, entry.number, placeAt(entry.issuedAtUtc), words);
  }

  /** Ids of what is indexed: runs, numbers of certificates, pumps as `<id>/<version>`. */
  known(what: FoundEntry['what']): ReadonlySet<string> {
    const column = what === 'pump' ? "id || '/' || json_extract(entry, '$.pump.version')" : 'id';
    const ids = this.database.prepare(`SELECT ${column} FROM entries WHERE what = ?`).pluck().all(what);
    return new Set(z.array(z.string()).parse(ids));
  }

  /** Lists a certificate that is in the index with another standing; its words stay. */
  putStanding(number: string, standing: Pick<CertificateListEntry, 'standing' | 'standingNote'>): void {
    const certificate = this.certificate(number);
    if (certificate === null) return;
    const entry = JSON.stringify(
      foundEntry.parse({ what: 'certificate', certificate: { ...certificate, ...standing } }),
    );
    this.database.prepare("UPDATE entries SET entry = ? WHERE what = 'certificate' AND id = ?").run(entry, number);
  }

  /** Of a pump, newest first. */
  certificatesOf(pumpId: string): readonly CertificateListEntry[] {
    const match = matchOf({ what: 'certificate', pumpId });
    return this.database
      .prepare(
        'SELECT entry FROM entries WHERE place IN (SELECT rowid FROM words WHERE words MATCH ?) ORDER BY place DESC',
      )
      .pluck()
      .all(match)
      .map(parseEntry)
      .flatMap((found) => (found.what === 'certificate' ? [found.certificate] : []));
  }

  /** A page of what fits the criteria. */
  find(criteria: FindCriteria): FoundPage {
    const { page, pageSize, from, to } = criteria;
    const match = matchOf(criteria);
    const isDated = from !== undefined || to !== undefined;
    const span = {
      first: from === undefined ? -Number.MAX_SAFE_INTEGER : placeAt(from),
      // The last place of the day; pumps, which have none, stand above all days.
      last:
        to !== undefined
          ? placeAt(to) + MS_PER_DAY * PLACES_PER_MS - 1
          : isDated
            ? FIRST_PUMP_PLACE - 1
            : Number.MAX_SAFE_INTEGER,
    };
    const places =
      match === null
        ? 'SELECT place FROM entries WHERE place BETWEEN :first AND :last'
        : 'SELECT rowid AS place FROM words WHERE words MATCH :match AND rowid BETWEEN :first AND :last';
    const bound = match === null ? span : { ...span, match };
    const total = this.database.prepare(`SELECT count(*) FROM (${places})`).pluck().get(bound);
    // Places first and entries afterwards: a page far down opens no entry of the pages before it.
    const entries = this.database
      .prepare(
        `SELECT entry FROM entries
         WHERE place IN (${places} ORDER BY place DESC LIMIT :pageSize OFFSET :skipped) ORDER BY place DESC`,
      )
      .pluck()
      .all({ ...bound, pageSize, skipped: (page - 1) * pageSize });
    return { total: z.number().parse(total), page, pageSize, found: entries.map(parseEntry) };
  }

  /** Empties the index and fills it anew, at once: whoever reads sees the old one or the new one. */
  replace(fill: () => void): void {
    this.inOneGo(() => {
      this.database.exec("DELETE FROM entries; INSERT INTO words(words) VALUES ('delete-all')");
      fill();
    });
  }

  /** Many entries with one sync of the disk. */
  inOneGo(work: () => void): void {
    this.database.transaction(work).immediate();
  }

  close(): void {
    this.database.close();
  }

  private entry(what: FoundEntry['what'], id: string): FoundEntry | null {
    const entry = this.database.prepare('SELECT entry FROM entries WHERE what = ? AND id = ?').pluck().get(what, id);
    return entry === undefined ? null : parseEntry(entry);
  }

  private put(found: FoundEntry, id: string, firstPlace: number, words: readonly string[]): void {
    const entry = JSON.stringify(foundEntry.parse(found));
    const { serialNumber, machine, tags } = columnsOf(found);
    const text = [...new Set(words)].join(' | ').normalize('NFC');
    const { placeOf, deleteWords, putEntry, putWords } = this.statements;
    const putBoth = (): void => {
      const kept = placeOf.get(found.what, id);
      const place = kept === undefined ? this.freePlace(firstPlace) : z.number().parse(kept);
      if (kept !== undefined) deleteWords.run(place);
      putEntry.run(place, found.what, id, entry);
      putWords.run(place, tags, serialNumber.normalize('NFC'), machine.normalize('NFC'), text);
    };
    if (this.database.inTransaction) putBoth();
    else this.database.transaction(putBoth)();
  }

  /** The first free place in its millisecond, or in one of the next; a pump's is above all pumps. */
  private freePlace(first: number): number {
    const last = first === FIRST_PUMP_PLACE ? Number.MAX_SAFE_INTEGER : first + PLACES_PER_MS - 1;
    const highest = this.statements.highestPlace.get(first, last);
    if (highest === null) return first;
    const next = z.number().parse(highest) + 1;
    return next <= last ? next : this.freePlace(last + 1);
  }

  /** @returns whether there was no index of this version's making [-] */
  private migrate(path: string): boolean {
    const version = (): number => z.number().parse(this.database.pragma('user_version', { simple: true }));
    if (version() > INDEX_MIGRATIONS.length) {
      throw new ArchiveError(
        path,
        `is of a later version of this program (${version()}, known up to ${INDEX_MIGRATIONS.length})`,
      );
    }
    if (version() === INDEX_MIGRATIONS.length) return false;
    return this.database
      .transaction(() => {
        // Another program may have been faster.
        const missing = INDEX_MIGRATIONS.slice(version());
        for (const step of missing) this.database.exec(step);
        this.database.pragma(`user_version = ${INDEX_MIGRATIONS.length}`);
        return missing.length > 0;
      })
      .immediate();
  }
}

function prepareStatements(database: Database.Database) {
  return {
    placeOf: database.prepare('SELECT place FROM entries WHERE what = ? AND id = ?').pluck(),
    highestPlace: database.prepare('SELECT max(place) FROM entries WHERE place BETWEEN ? AND ?').pluck(),
    deleteWords: database.prepare('DELETE FROM words WHERE rowid = ?'),
    putEntry: database.prepare('INSERT OR REPLACE INTO entries VALUES (?, ?, ?, ?)'),
    putWords: database.prepare('INSERT INTO words (rowid, tags, serialNumber, machine, text) VALUES (?, ?, ?, ?, ?)'),
  };
}

/** Where an instant, or the beginning of a day, stands. */
function placeAt(instant: string): number {
  return Date.parse(instant) * PLACES_PER_MS;
}

function parseEntry(entry: unknown): FoundEntry {
  return foundEntry.parse(JSON.parse(z.string().parse(entry)));
}

function columnsOf(found: FoundEntry): {
  readonly serialNumber: string;
  readonly machine: string;
  readonly tags: string;
} {
  const outcome = found.what === 'pump' ? null : found.what === 'run' ? found.run.outcome : found.certificate.outcome;
  const { pumpId, type, serialNumber, machine } =
    found.what === 'pump' ? found.pump : found.what === 'run' ? found.run : found.certificate;
  const tags = [tag('what', found.what), tag('pumpId', pumpId), tag('type', type)];
  if (outcome !== null) tags.push(tag('outcome', outcome));
  return { serialNumber, machine, tags: tags.join(' ') };
}

/** Whether SQLite says that a file is not what it was. */
function isDamage(error: unknown): boolean {
  const code = codeOf(error) ?? '';
  return code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB';
}
