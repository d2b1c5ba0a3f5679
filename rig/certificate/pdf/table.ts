import type { Sheet } from './sheet.ts';
import { HAIRLINE, INK, PALE_LINE, STYLES, type TextStyle } from './style.ts';
import { type Align, drawText, type TextBlock } from './textLayout.ts';

export type Column = {
  readonly heading: string;
  /** Share of the table's width; all shares are added up. */
  readonly share: number;
  readonly align?: Align;
};
/** A cell: text, or lines of text each in a style of its own. */
export type Cell = string | readonly { readonly text: string; readonly style: TextStyle }[];

export type TableStyle = {
  readonly body: TextStyle;
  readonly heading: TextStyle;
  readonly padPt: number;
  readonly gutterPt: number;
  readonly ruleColour: string;
};
const BODY_TABLE: TableStyle = {
  body: STYLES.body,
  heading: STYLES.quiet,
  padPt: 2.2,
  gutterPt: 9,
  ruleColour: HAIRLINE,
};
export const SMALL_TABLE: TableStyle = {
  body: STYLES.small,
  heading: STYLES.quiet,
  padPt: 0.9,
  gutterPt: 8,
  ruleColour: PALE_LINE,
};
/** Many narrow columns of numbers. */
export const FIGURES_TABLE: TableStyle = {
  body: STYLES.figures,
  heading: STYLES.quietFigures,
  padPt: 0.5,
  gutterPt: 7,
  ruleColour: PALE_LINE,
};

const PAIRS_GUTTER_PT = 9;

type Place = { readonly xPt: number; readonly widthPt: number; readonly align: Align };

function placesOf(sheet: Sheet, columns: readonly Column[], gutterPt: number): readonly Place[] {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const roomPt = sheet.widthPt - gutterPt * (columns.length - 1);
  let xPt = sheet.xPt;
  return columns.map(({ share, align = 'left' }) => {
    const place = { xPt, widthPt: (roomPt * share) / shares, align };
    xPt += place.widthPt + gutterPt;
    return place;
  });
}

function blocksOf(sheet: Sheet, cell: Cell, style: TextStyle, widthPt: number): readonly TextBlock[] {
  const parts = typeof cell === 'string' ? [{ text: cell, style }] : cell;
  return parts.map((part) => sheet.lay(part.text, part.style, widthPt));
}

function heightOf(blocks: readonly TextBlock[]): number {
  return blocks.reduce((sum, { heightPt }) => sum + heightPt, 0);
}

/**
 * Sets a table: a row of headings, hairlines between rows, columns broken into lines as they need. Where the page ends
 * between rows the headings are repeated on the next.
 *
 * @param sheet - where it goes [-]
 * @param columns - headings, shares of the width, alignment [-]
 * @param rows - as many cells each as there are columns [-]
 * @param style - type and padding [-]
 */
export function setTable(
  sheet: Sheet,
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  style: TableStyle = BODY_TABLE,
): void {
  const { document } = sheet;
  const places = placesOf(sheet, columns, style.gutterPt);
  const table = document.struct('Table');
  document.addStructure(table);

  const setRow = (cells: readonly Cell[], tag: 'TH' | 'TD', type: TextStyle) => {
    const blocks = places.map((place, index) => blocksOf(sheet, cells[index] ?? '', type, place.widthPt));
    const padPt = style.padPt * sheet.layout.scale;
    const heightPt = Math.max(...blocks.map(heightOf)) + 2 * padPt;
    const page = document.page;
    sheet.keepTogether(heightPt);
    if (document.page !== page && tag === 'TD') setHeadings();
    const row = document.struct('TR');
    table.add(row);
    for (const [index, place] of places.entries()) {
      const draw = () => {
        let yPt = sheet.yPt + padPt + (tag === 'TH' ? heightPt - 2 * padPt - heightOf(blocks[index] ?? []) : 0);
        for (const block of blocks[index] ?? []) {
          drawText(document, block, place.xPt, yPt, place.widthPt, place.align);
          yPt += block.heightPt;
        }
      };
      row.add(document.struct(tag, {}, draw));
    }
    row.end();
    sheet.yPt += heightPt;
    sheet.rule(tag === 'TH' ? INK : style.ruleColour);
  };
  const setHeadings = () =>
    setRow(
      columns.map(({ heading }) => heading),
      'TH',
      style.heading,
    );

  setHeadings();
  for (const row of rows) setRow(row, 'TD', style.body);
  table.end();
}

/** Pairs of a name and what it is, in two columns without rules. */
export function setPairs(sheet: Sheet, pairs: readonly (readonly [string, string])[], nameShare = 0.3): void {
  const nameWidthPt = sheet.widthPt * nameShare - PAIRS_GUTTER_PT;
  const valueXPt = sheet.xPt + sheet.widthPt * nameShare;
  for (const [name, value] of pairs) {
    const nameBlock = sheet.lay(name, STYLES.quiet, nameWidthPt);
    const valueBlock = sheet.lay(value, STYLES.small, sheet.widthPt * (1 - nameShare));
    const heightPt = Math.max(nameBlock.heightPt, valueBlock.heightPt) + 1.2 * sheet.layout.scale;
    sheet.keepTogether(heightPt);
    sheet.tagged('P', () => {
      drawText(sheet.document, nameBlock, sheet.xPt, sheet.yPt);
      drawText(sheet.document, valueBlock, valueXPt, sheet.yPt);
    });
    sheet.yPt += heightPt;
  }
}
