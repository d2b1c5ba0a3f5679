/** Longer than any dictionary that is read here [bytes]. */
const LONGEST_DICTIONARY = 700;
/** The whole of a file's end: one table, one revision, and nothing behind it. */
const FILE_END =
  /\ntrailer\n<<\n\/Size (\d{1,7})\n\/Root (\d{1,7}) 0 R\n\/Info \d{1,7} 0 R\n\/ID \[<[0-9a-f]{32}> <[0-9a-f]{32}>\]\n>>\nstartxref\n(\d{1,10})\n%%EOF$/;
const LONGEST_END = 300;
/** Every entry of a table is as long (ISO 32000-1, 7.5.4) [bytes]. */
const ENTRY_BYTES = 20;
const ENTRY = /^(\d{10}) 00000 n \n$/;

export type PdfObject = {
  /** Where it begins in the file. */
  readonly at: number;
  /** Its first bytes, as Latin-1: its head, its dictionary, and what comes next. */
  readonly text: string;
};

/**
 * Objects of a PDF that this program wrote, found as every reader finds them: by the table at the end of the file.
 *
 * Source: ISO 32000-1:2008, 7.5.4 (cross-reference table), 7.5.5 (trailer).
 */
export class PdfObjects {
  private constructor(
    private readonly bytes: Buffer,
    private readonly tableAt: number,
    private readonly count: number,
    private readonly root: number,
  ) {}

  /** @returns null where the file does not end as it was written [-] */
  static of(bytes: Buffer): PdfObjects | null {
    const end = FILE_END.exec(bytes.toString('latin1', Math.max(0, bytes.length - LONGEST_END)));
    const [whole = '', size, root, startxref] = end ?? [];
    const head = `xref\n0 ${size}\n`;
    const at = Number(startxref);
    if (end === null || bytes.toString('latin1', at, at + head.length) !== head) return null;
    const tableAt = at + head.length;
    // The line end before 'trailer' belongs to the table's last entry.
    if (tableAt + ENTRY_BYTES * Number(size) !== bytes.length - whole.length + 1) return null;
    return new PdfObjects(bytes, tableAt, Number(size), Number(root));
  }

  /** An object by its number; null where the table does not lead to it. */
  object(number: number): PdfObject | null {
    if (number < 1 || number >= this.count) return null;
    const entryAt = this.tableAt + ENTRY_BYTES * number;
    const at = Number(ENTRY.exec(this.bytes.toString('latin1', entryAt, entryAt + ENTRY_BYTES))?.[1]);
    if (Number.isNaN(at)) return null;
    const text = this.bytes.toString('latin1', at, at + LONGEST_DICTIONARY);
    return text.startsWith(`${number} 0 obj\n<<\n`) ? { at, text } : null;
  }

  /** From the catalogue along references, each found by its pattern in the dictionary before; null where one is missing. */
  follow(...references: readonly RegExp[]): PdfObject | null {
    let found = this.object(this.root);
    for (const reference of references) {
      const dictionary = found?.text.split('\nendobj\n', 1)[0] ?? '';
      found = this.object(Number(reference.exec(dictionary)?.[1]));
    }
    return found;
  }
}
