import { existsSync, readFileSync } from 'node:fs';
import { z } from 'zod';
import { certificateData, chainPlace } from '../../analysis/certificate/certificateData.ts';
import { sha256Of } from './certificateFolder.ts';

/** What others ask of a certificate's data: whose they are, where they stand in the chain, whose place they take. */
const linkedData = z.object({
  number: z.string(),
  previous: chainPlace.previous,
  // Older certificates name no notices.
  notices: chainPlace.notices.default([]),
  replaces: certificateData.shape.replaces,
});
type LinkedData = z.infer<typeof linkedData>;

export type FileFacts = {
  readonly sha256: string;
  /** Null: it is no JSON file, or does not hold the data of a certificate. */
  readonly data: LinkedData | null;
};

function linkedDataIn(json: Buffer): LinkedData | null {
  try {
    return linkedData.safeParse(JSON.parse(json.toString('utf8'))).data ?? null;
  } catch {
    return null;
  }
}

/** What is known of files, so that each is read once however many certificates name it. */
export class FilesRead {
  private readonly facts = new Map<string, FileFacts>();

  /** Of a file that was read elsewhere. */
  note(path: string, facts: FileFacts): void {
    this.facts.set(path, facts);
  }

  /** What is known already; null: nothing. */
  noted(path: string): FileFacts | null {
    return this.facts.get(path) ?? null;
  }

  /** Reads the file unless it was read; null: there is none. */
  read(path: string): FileFacts | null {
    const known = this.facts.get(path);
    if (known !== undefined) return known;
    if (!existsSync(path)) return null;
    const bytes = readFileSync(path);
    const facts = { sha256: sha256Of(bytes), data: path.endsWith('.json') ? linkedDataIn(bytes) : null };
    this.facts.set(path, facts);
    return facts;
  }
}
