import Database from 'better-sqlite3';
import { z } from 'zod';
import { runClosing, runKind, runLabel } from '../../analysis/records/runRecord.ts';

const outcomeWord = z.enum(['pass', 'fail', 'not proven', 'measured']);

/** A run as it is listed. */
const runListEntry = z.strictObject({
  id: z.string(),
  kind: runKind,
  label: runLabel,
  startedAtUtc: z.string(),
  pumpId: z.string(),
  pumpName: z.string(),
  /** How it ended; 'open' while it is not sealed. */
  ending: z.enum([...runClosing.shape.ending.options, 'open']),
  /** Null until it was analysed. */
  outcome: outcomeWord.nullable(),
});
export type RunListEntry = z.infer<typeof runListEntry>;

/** A certificate as it is listed. */
const certificateListEntry = z.strictObject({
  number: z.string(),
  issuedAtUtc: z.string(),
  pumpId: z.string(),
  pumpName: z.string(),
  outcome: outcomeWord,
  isSpecimen: z.boolean(),
});
export type CertificateListEntry = z.infer<typeof certificateListEntry>;

const SCHEMA = `
  CREATE TABLE IF NOT EXISTS runs (id TEXT PRIMARY KEY, entry TEXT NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS certificates (number TEXT PRIMARY KEY, issuedAtUtc TEXT NOT NULL, entry TEXT NOT NULL) STRICT;
`;

/** index.sqlite: what can be listed without opening every file. Only sealed runs are in it, which do not change. */
export class ArchiveIndex {
  private readonly database: Database.Database;

  constructor(path: string) {
    this.database = new Database(path);
    this.database.pragma('journal_mode = WAL');
    this.database.pragma('synchronous = FULL');
    this.database.exec(SCHEMA);
  }

  run(id: string): RunListEntry | null {
    const entry = this.database.prepare('SELECT entry FROM runs WHERE id = ?').pluck().get(id);
    return typeof entry === 'string' ? runListEntry.parse(JSON.parse(entry)) : null;
  }

  putRun(entry: RunListEntry): void {
    this.database.prepare('INSERT OR REPLACE INTO runs VALUES (?, ?)').run(entry.id, JSON.stringify(entry));
  }

  addCertificate(entry: CertificateListEntry): void {
    this.database
      .prepare('INSERT INTO certificates VALUES (?, ?, ?)')
      .run(entry.number, entry.issuedAtUtc, JSON.stringify(certificateListEntry.parse(entry)));
  }

  /** Newest first. */
  certificates(): readonly CertificateListEntry[] {
    return this.database
      .prepare('SELECT entry FROM certificates ORDER BY issuedAtUtc DESC, number DESC')
      .pluck()
      .all()
      .map((entry) => certificateListEntry.parse(JSON.parse(z.string().parse(entry))));
  }

  /** Replaces everything at once: whoever reads sees the old index or the new one. */
  rebuild(runs: readonly RunListEntry[], certificates: readonly CertificateListEntry[]): void {
    this.database.transaction(() => {
      this.database.exec('DELETE FROM runs; DELETE FROM certificates');
      for (const entry of runs) this.putRun(entry);
      for (const entry of certificates) this.addCertificate(entry);
    })();
  }

  close(): void {
    this.database.close();
  }
}
