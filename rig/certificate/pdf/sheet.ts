import type PDFDocument from 'pdfkit';
import { HAIRLINE, MARGINS, PAGE, STYLES, TEXT_WIDTH_PT, type TextStyle } from './style.ts';
import { type Align, drawText, layOut } from './textLayout.ts';

export type Document = typeof PDFDocument;

/** Where the next thing goes on the page: a document with a pen that moves down. */
export class Sheet {
  yPt: number = MARGINS.top;

  constructor(
    readonly document: Document,
    readonly xPt: number = MARGINS.left,
    readonly widthPt: number = TEXT_WIDTH_PT,
  ) {}

  /** A column of this sheet that starts at the same height. */
  column(xPt: number, widthPt: number): Sheet {
    const column = new Sheet(this.document, xPt, widthPt);
    column.yPt = this.yPt;
    return column;
  }

  newPage(): void {
    this.document.addPage();
    this.yPt = MARGINS.top;
  }

  /** Begins a new page where less room than this is left. */
  keepTogether(heightPt: number): void {
    if (this.yPt + heightPt > PAGE.heightPt - MARGINS.bottom) this.newPage();
  }

  skip(heightPt: number): void {
    this.yPt += heightPt;
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
    const block = layOut(this.document, text, style, this.widthPt);
    this.keepTogether(block.heightPt);
    this.tagged(tag, () => drawText(this.document, block, this.xPt, this.yPt, this.widthPt, align));
    this.yPt += block.heightPt;
  }

  heading(text: string): void {
    this.keepTogether(60);
    this.skip(9);
    this.write(text, STYLES.heading, 'H2');
    this.skip(2);
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
