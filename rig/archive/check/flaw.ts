import { relative } from 'node:path';

/** Something that a check found. */
export type Flaw = {
  /** 'wrong': a file is not what it was, is missing, or does not fit the others. 'note': worth knowing, and nothing is lost. */
  readonly severity: 'wrong' | 'note';
  /** The file or folder, from the archive's own folder. */
  readonly file: string;
  readonly text: string;
};

/** Gathers what a check finds, and counts what it read. */
export class Findings {
  readonly flaws: Flaw[] = [];
  filesRead = 0;

  /** @param imported - numbers of certificates that came in from other archives, whose chains run elsewhere [-] */
  constructor(
    readonly directory: string,
    readonly imported: ReadonlySet<string> = new Set(),
  ) {}

  wrong(path: string, text: string): void {
    this.flaws.push({ severity: 'wrong', file: relative(this.directory, path), text });
  }

  note(path: string, text: string): void {
    this.flaws.push({ severity: 'note', file: relative(this.directory, path), text });
  }
}
