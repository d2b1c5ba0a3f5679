import type PDFDocument from 'pdfkit';
import { HAIRLINE, MARGINS, type Paper, STYLES, type TextStyle } from './style.ts';
import { type Align, drawText, layOut, type TextBlock } from './textLayout.ts';

export type Document = typeof PDFDocument;

/** On what a certificate is set, and how large its type is against the usual. */
export type SheetLayout = {
  readonly paper: Paper;
  readonly scale: number;
  /** Kept free at the bottom of a page [pt]. */
  readonly footPt: number;
  /** A document with the same fonts that nobody sees: on it things are set to learn how high they are. */
  readonly scratch: Document;
};

const HEADING_GAP_PT = 8;

/** No block comes near this height. */
const ENDLESS_PT = 100_000;
/** Least room under a heading, so that none stands alone at the foot of a page [pt]. */
const HEADING_ROOM_PT = 44;

/** Where the next thing goes on the page: a document with a pen that moves down. */
export class Sheet {
  yPt: number = MARGINS.top;
  readonly xPt: number;
  readonly widthPt: number;

  constructor(
    readonly document: Document,
    readonly layout: SheetLayout,
    place?: { readonly xPt: number; readonly widthPt: number },
  ) {
    this.xPt = place?.xPt ?? MARGINS.left;
    this.widthPt = place?.widthPt ?? layout.paper.widthPt - MARGINS.left - MARGINS.right;
  }

  /** A column of this sheet that starts at the same height. */
  column(xPt: number, widthPt: number): Sheet {
    const column = new Sheet(this.document, this.layout, { xPt, widthPt });
    column.yPt = this.yPt;
    return column;
  }

  /** How high something becomes on a sheet of this width [pt]. */
  heightOf(set: (sheet: Sheet) => void): number {
    const paper = { ...this.layout.paper, heightPt: ENDLESS_PT };
    const scratch = new Sheet(this.layout.scratch, { ...this.layout, paper }, this);
    // Not at the top of a page: a heading has its gap.
    scratch.yPt = 2 * MARGINS.top;
    set(scratch);
    return scratch.yPt - 2 * MARGINS.top;
  }

  /** Sets something on one page: on the next where this one has no room for it, unless no page has. */
  together(set: (sheet: Sheet) => void): void {
    const heightPt = this.heightOf(set);
    if (MARGINS.top + heightPt <= this.bottomPt) this.keepTogether(heightPt);
    set(this);
  }

  /** Columns side by side, each set by its own hand; the pen goes on under the longest. */
  columns(shares: readonly number[], gapPt: number, set: readonly ((column: Sheet) => void)[]): void {
    const total = shares.reduce((sum, share) => sum + share, 0);
    const roomPt = this.widthPt - gapPt * (shares.length - 1);
    let xPt = this.xPt;
    const columns = shares.map((share) => {
      const column = this.column(xPt, (roomPt * share) / total);
      xPt += column.widthPt + gapPt;
      return column;
    });
    for (const [index, column] of columns.entries()) set[index]?.(column);
    this.yPt = Math.max(...columns.map(({ yPt }) => yPt));
  }

  newPage(): void {
    this.document.addPage();
    this.yPt = MARGINS.top;
  }

  get bottomPt(): number {
    return this.layout.paper.heightPt - this.layout.footPt;
  }

  /** Begins a new page where less room than this is left. */
  keepTogether(heightPt: number): void {
    if (this.yPt + heightPt > this.bottomPt) this.newPage();
  }

  skip(heightPt: number): void {
    this.yPt += heightPt * this.layout.scale;
  }

  /** A style at the size of this sheet. */
  styled(style: TextStyle): TextStyle {
    return { ...style, sizePt: style.sizePt * this.layout.scale };
  }

  /** Breaks text into lines at the size of this sheet. */
  lay(text: string, style: TextStyle, widthPt: number = this.widthPt): TextBlock {
    return layOut(this.document, text, this.styled(style), widthPt);
  }

  /** A tagged piece of the page, as a screen reader meets it. */
  tagged(tag: string, draw: () => void, alt?: string): void {
    const options = alt === undefined ? {} : { alt };
    const element = this.document.struct(tag, options, () => draw());
    this.document.addStructure(element);
    element.end();
  }

  /** Lines and tints that say nothing of their own. */
  artifact(draw: () => void): void {
    this.document.markContent('Artifact', { type: 'Layout' });
    draw();
    this.document.endMarkedContent();
  }

  write(text: string, style: TextStyle = STYLES.body, tag = 'P', align: Align = 'left'): void {
    const block = this.lay(text, style);
    this.keepTogether(block.heightPt);
    this.tagged(tag, () => drawText(this.document, block, this.xPt, this.yPt, this.widthPt, align));
    this.yPt += block.heightPt;
  }

  /** @param roomPt - what must stand under it on the same page [pt] */
  heading(text: string, roomPt = HEADING_ROOM_PT): void {
    this.keepTogether(roomPt);
    if (this.yPt > MARGINS.top) this.skip(HEADING_GAP_PT);
    this.write(text, STYLES.heading, 'H2');
    this.skip(1.5);
  }

  rule(colour: string = HAIRLINE): void {
    this.artifact(() =>
      this.document
        .moveTo(this.xPt, this.yPt)
        .lineTo(this.xPt + this.widthPt, this.yPt)
        .lineWidth(0.5)
        .strokeColor(colour)
        .stroke(),
    );
  }
}
