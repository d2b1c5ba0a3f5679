import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { Document, Sheet } from './sheet.ts';
import { BAND_OPACITY, INK, PALE_LINE, QUIET_INK, type SeriesLook, STYLES } from './style.ts';
import { type Align, drawText, layOut, widthOfWord } from './textLayout.ts';

/** A point in the plot's own units. */
export type PlotPoint = readonly [x: number, y: number];

export type Axis = {
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly ticks: number;
};

const ROOM = { left: 34, right: 40, top: 16, bottom: 28 } as const;
const LABEL = STYLES.quiet;
const MARK_PT = 2.3;
const PAPER = '#ffffff';

/** A plot under construction: axes drawn, ready for series. */
export class PlotFrame {
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLinear<number, number>;
  private readonly document: Document;

  constructor(
    sheet: Sheet,
    private readonly box: {
      readonly xPt: number;
      readonly yPt: number;
      readonly widthPt: number;
      readonly heightPt: number;
    },
    xAxis: Axis,
    yAxis: Axis,
  ) {
    this.document = sheet.document;
    const { xPt, yPt, widthPt, heightPt } = box;
    this.x = scaleLinear([xAxis.from, xAxis.to], [xPt + ROOM.left, xPt + widthPt - ROOM.right]);
    this.y = scaleLinear([yAxis.from, yAxis.to], [yPt + heightPt - ROOM.bottom, yPt + ROOM.top]).nice(yAxis.ticks);
    this.drawAxes(xAxis, yAxis);
  }

  private label(text: string, xPt: number, yPt: number, align: Align, colour: string = QUIET_INK): void {
    drawText(this.document, layOut(this.document, text, { ...LABEL, colour }, 400), xPt, yPt, 0, align);
  }

  private drawAxes(xAxis: Axis, yAxis: Axis): void {
    const { document, x, y } = this;
    const [leftPt = 0, rightPt = 0] = x.range();
    const [bottomPt = 0] = y.range();
    const xFormat = x.tickFormat(xAxis.ticks, 'f');
    const yFormat = y.tickFormat(yAxis.ticks, 'f');
    document.lineWidth(0.3).strokeColor(PALE_LINE);
    for (const tick of y.ticks(yAxis.ticks)) {
      document.moveTo(leftPt, y(tick)).lineTo(rightPt, y(tick)).stroke();
      this.label(yFormat(tick), leftPt - 4, y(tick) - 5.5, 'right');
    }
    document.lineWidth(0.7).strokeColor(INK).moveTo(leftPt, bottomPt).lineTo(rightPt, bottomPt).stroke();
    for (const tick of x.ticks(xAxis.ticks)) {
      document
        .moveTo(x(tick), bottomPt)
        .lineTo(x(tick), bottomPt + 3)
        .stroke();
      this.label(xFormat(tick), x(tick), bottomPt + 4, 'centre');
    }
    this.label(xAxis.title, (leftPt + rightPt) / 2, bottomPt + 14, 'centre');
    this.label(yAxis.title, this.box.xPt, this.box.yPt, 'left');
  }

  /** A line through points; its look is dashed where the series is. */
  curve(points: readonly PlotPoint[], colour: string, dash: number | null, widthPt = 1): void {
    const path = line<PlotPoint>(
      ([x]) => this.x(x),
      ([, y]) => this.y(y),
    )([...points]);
    if (path === null) return;
    this.document.lineWidth(widthPt).lineJoin('round').strokeColor(colour);
    if (dash !== null) this.document.dash(dash, { space: dash });
    this.document.path(path).stroke();
    this.document.undash();
  }

  /** The ground between a lower and an upper line [x, low, high]. */
  band(points: readonly (readonly [x: number, low: number, high: number])[], colour: string): void {
    const path = area<readonly [number, number, number]>(
      ([x]) => this.x(x),
      ([, low]) => this.y(low),
      ([, , high]) => this.y(high),
    )([...points]);
    if (path === null) return;
    this.document.save().fillOpacity(BAND_OPACITY).path(path).fill(colour).restore();
  }

  /** A measured point with its expanded uncertainty upwards and downwards. */
  point([x, y]: PlotPoint, expandedUncertainty: number, look: SeriesLook, isFilled: boolean): void {
    const { document } = this;
    const xPt = this.x(x);
    document.lineWidth(0.7).strokeColor(look.colour);
    const highPt = this.y(y + expandedUncertainty);
    const lowPt = this.y(y - expandedUncertainty);
    if (lowPt - highPt > 2 * MARK_PT) document.moveTo(xPt, highPt).lineTo(xPt, lowPt).stroke();
    this.mark(xPt, this.y(y), look, isFilled);
  }

  private mark(xPt: number, yPt: number, { mark, colour }: SeriesLook, isFilled: boolean): void {
    const { document } = this;
    const r = MARK_PT;
    if (mark === 'circle') document.circle(xPt, yPt, r);
    else if (mark === 'square') document.rect(xPt - r, yPt - r, 2 * r, 2 * r);
    else if (mark === 'triangle')
      document.polygon([xPt, yPt - 1.2 * r], [xPt + 1.2 * r, yPt + r], [xPt - 1.2 * r, yPt + r]);
    else document.polygon([xPt, yPt - 1.4 * r], [xPt + 1.4 * r, yPt], [xPt, yPt + 1.4 * r], [xPt - 1.4 * r, yPt]);
    if (isFilled) document.fillAndStroke(colour, colour);
    else document.fillAndStroke('#ffffff', colour);
  }

  /** Words in the right margin, each beside the end of its line, and none on top of another. */
  endLabels(labels: readonly { readonly text: string; readonly y: number; readonly colour: string }[]): void {
    const [, rightPt = 0] = this.x.range();
    let lowestPt = Number.NEGATIVE_INFINITY;
    for (const { text, y, colour } of [...labels].sort((a, b) => b.y - a.y)) {
      const yPt = Math.max(this.y(y) - 5.5, lowestPt + LABEL.sizePt * 1.2);
      this.label(text, rightPt + 3, yPt, 'left', colour);
      lowestPt = yPt;
    }
  }

  /** A thin upright line. */
  upright(x: number): void {
    const [bottomPt = 0, topPt = 0] = this.y.range();
    this.document.lineWidth(0.6).strokeColor(QUIET_INK).dash(2, { space: 2 });
    this.document.moveTo(this.x(x), bottomPt).lineTo(this.x(x), topPt).stroke().undash();
  }

  /** Lines of words beside an upright, from a level down: on its left, or on its right where there is room; no line that is there shows through. */
  beside([x, y]: PlotPoint, texts: readonly string[], side: 'left' | 'right'): void {
    const [, rightPt = 0] = this.x.range();
    const widthPt = Math.max(0, ...texts.map((text) => this.widthOf(text)));
    const isLeft = side === 'left' || this.x(x) + 3 + widthPt > rightPt + ROOM.right;
    for (const [row, text] of texts.entries()) {
      const yPt = this.y(y) + 1 + 1.15 * LABEL.sizePt * row;
      const wordsPt = this.widthOf(text);
      const fromPt = this.x(x) + (isLeft ? -3 - wordsPt : 3);
      this.document.rect(fromPt, yPt + 1, wordsPt, 1.15 * LABEL.sizePt).fill(PAPER);
      this.label(text, this.x(x) + (isLeft ? -3 : 3), yPt, isLeft ? 'right' : 'left');
    }
  }

  private widthOf(text: string): number {
    return text.split(' ').reduce((sum, word) => sum + widthOfWord(this.document, `${word} `, LABEL), 0);
  }
}

/**
 * Sets a plot over the sheet's whole width, as one figure of the tagged document; the sheet goes on below it.
 *
 * @param sheet - where it is set [-]
 * @param heightPt - at full size [pt]
 * @param axes - of the plot [-]
 * @param inWords - what is said of it to those who do not see it [-]
 * @param draw - puts the series into the frame [-]
 */
export function setPlot(
  sheet: Sheet,
  heightPt: number,
  axes: { readonly x: Axis; readonly y: Axis },
  inWords: string,
  draw: (frame: PlotFrame) => void,
): void {
  const { xPt, yPt, widthPt } = sheet;
  const box = { xPt, yPt, widthPt, heightPt: heightPt * sheet.layout.scale };
  sheet.tagged('Figure', () => draw(new PlotFrame(sheet, box, axes.x, axes.y)), inWords);
  sheet.yPt += box.heightPt;
}
