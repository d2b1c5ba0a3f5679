/**
 * What makes the tables of the index, step by step; `user_version` of the database counts the steps that were done. A step
 * is never changed once it was published: another is added. After any step the index is filled anew from the files, so a
 * step may throw away what it does not need.
 */
export const INDEX_MIGRATIONS: readonly string[] = [
  // `place` puts everything in the order of time, for the full text as for the entries: what is found comes out in that order
  // without being sorted. The text itself is not kept a second time.
  `
  DROP TABLE IF EXISTS runs;
  DROP TABLE IF EXISTS certificates;
  CREATE TABLE entries (
    place INTEGER PRIMARY KEY,
    what TEXT NOT NULL CHECK (what IN ('pump', 'run', 'certificate')),
    id TEXT NOT NULL,
    entry TEXT NOT NULL,
    UNIQUE (what, id)
  ) STRICT;
  CREATE VIRTUAL TABLE words USING fts5 (
    tags, serialNumber, machine, text,
    content = '', contentless_delete = 1, prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2'
  );
  `,
];
