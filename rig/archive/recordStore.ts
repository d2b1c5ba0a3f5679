import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { z } from 'zod';
import { recordId } from '../../analysis/records/fields.ts';
import { codeOf } from '../errors.ts';
import { RecordError } from './archiveErrors.ts';
import { measureFile } from './measureFile.ts';
import { parseRecord, readRecordFile, recordText } from './recordFile.ts';
import { appendLine, writeWholeFile } from './wholeFile.ts';

type Versioned = { readonly id: string; readonly version: number };

export type RecordStore<Stored extends Versioned> = {
  /**
   * Stores a record as the next version; one that says the same as the latest is not stored again. The version it
   * comes with does not count.
   *
   * @param record - anything [-]
   * @param source - the file it came from, for messages [-]
   * @returns the stored record, with its version [-]
   * @throws RecordError naming the fields that are wrong
   */
  save(record: unknown, source?: string): Stored;
  latest(id: string): Stored;
  /** The latest version of each, by id. */
  list(): readonly Stored[];
  /** The number of the latest version of each; no file is opened for it. */
  latestVersions(): ReadonlyMap<string, number>;
};

/** Beside the versions of a record: the SHA-256 each was stored with, as `sha256sum --check` reads them. */
export const RECORD_SUMS = 'SHA256SUMS';

const withVersion = z.looseObject({ version: z.unknown() });

/** Versions of records in `<folder>/<id>/<version>.json`, none of which is ever overwritten. */
export function recordStore<Stored extends Versioned>(folder: string, schema: z.ZodType<Stored>): RecordStore<Stored> {
  const pathOf = (id: string, version: number): string => join(folder, id, `${version}.json`);

  function versions(id: string): readonly number[] {
    if (!recordId.safeParse(id).success || !existsSync(join(folder, id))) return [];
    return readdirSync(join(folder, id))
      .map((name) => Number(/^([1-9]\d*)\.json$/.exec(name)?.[1]))
      .filter((version) => version > 0)
      .sort((a, b) => a - b);
  }

  function latestOrNull(id: string): Stored | null {
    const version = versions(id).at(-1);
    return version === undefined ? null : readRecordFile(schema, pathOf(id, version));
  }

  function save(record: unknown, source = 'record'): Stored {
    const loose = withVersion.safeParse(record);
    const numbered = (version: number): Stored =>
      parseRecord(schema, loose.success ? { ...loose.data, version } : record, source);
    const { id } = numbered(1);
    for (;;) {
      const latest = latestOrNull(id);
      if (latest !== null && isDeepStrictEqual(numbered(latest.version), latest)) return latest;
      const stored = numbered((latest?.version ?? 0) + 1);
      mkdirSync(join(folder, id), { recursive: true });
      try {
        writeWholeFile(pathOf(id, stored.version), recordText(stored));
        const { sha256 } = measureFile(pathOf(id, stored.version));
        appendLine(join(folder, id, RECORD_SUMS), `${sha256}  ${stored.version}.json`);
        return stored;
      } catch (error) {
        // Another program stored this version meanwhile: look again.
        if (!(error instanceof Error) || codeOf(error.cause) !== 'EEXIST') throw error;
      }
    }
  }

  return {
    save,
    latest(id) {
      const latest = latestOrNull(id);
      if (latest === null) throw new RecordError(join(folder, id), `no record is called ${JSON.stringify(id)} here`);
      return latest;
    },
    list: () =>
      readdirSync(folder)
        .sort()
        .map(latestOrNull)
        .filter((record) => record !== null),
    latestVersions: () =>
      new Map(
        readdirSync(folder)
          .map((id) => [id, versions(id).at(-1) ?? 0] as const)
          .filter(([, latest]) => latest > 0),
      ),
  };
}
