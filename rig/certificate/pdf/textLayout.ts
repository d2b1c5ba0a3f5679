import type PDFDocument from 'pdfkit';
import { type FontName, runsByFont } from './fonts.ts';
import type { TextStyle } from './style.ts';

/** Letter symbols with an index, and raised exponents, as the texts write them: V_i, p_atm, ^½, 10^−14. */
const RAISED_OR_LOWERED = /(?<=\b[VCp])_(g|i|l|t|np|atm)\b|\^(½|−?\d+)/g;

const SCRIPT_SIZE = 0.7;
const LOWERED_BY = -0.16;
const RAISED_BY = 0.36;

/** Line height over type size. */
const LEADING = 1.32;

type Piece = { readonly text: string; readonly font: FontName; readonly sizePt: number; readonly risePt: number };
type PlacedPiece = Piece & { readonly xPt: number };
type TextLine = { readonly pieces: readonly PlacedPiece[]; readonly widthPt: number };
export type TextBlock = {
  readonly lines: readonly TextLine[];
  readonly style: TextStyle;
  readonly heightPt: number;
};
export type Align = 'left' | 'right' | 'centre';

type Document = typeof PDFDocument;

function piecesOf(word: string, { weight, sizePt }: TextStyle): readonly Piece[] {
  const pieces: Piece[] = [];
  const add = (text: string, share: number, rise: number) => {
    for (const run of runsByFont(text, weight)) pieces.push({ ...run, sizePt: share * sizePt, risePt: rise * sizePt });
  };
  let from = 0;
  for (const match of word.matchAll(RAISED_OR_LOWERED)) {
    const [whole, lowered, raised] = match;
    add(word.slice(from, match.index), 1, 0);
    add(lowered ?? raised ?? '', SCRIPT_SIZE, lowered === undefined ? RAISED_BY : LOWERED_BY);
    from = match.index + whole.length;
  }
  add(word.slice(from), 1, 0);
  return pieces;
}

function widthOf(document: Document, { text, font, sizePt }: Piece): number {
  return document.font(font).fontSize(sizePt).widthOfString(text);
}

/** A word wider than the column (a hash, a long name) is cut where the column ends. */
function cutToFit(document: Document, word: string, style: TextStyle, widthPt: number): readonly string[] {
  const parts: string[] = [];
  let part = '';
  for (const letter of word) {
    const isTooWide = part !== '' && widthOfWord(document, part + letter, style) > widthPt;
    if (isTooWide) parts.push(part);
    part = isTooWide ? letter : part + letter;
  }
  return [...parts, part];
}

/** Units that stay on the line of their number. */
const UNIT =
  /^(?:°C|%|K|s|h|m|mm|bar|mbar|Pa|r\/min|rev\/s|l\/min|cm³|cm³\/rev|m³\S*|m²|mm²\/s|mPa·s|Pa·s|kg\/m³|N·m)[);:.,]*$/;
const ENDS_IN_DIGIT = /\d$/;
/** Signs that are read with what stands before and behind them. */
const BINDING = /^[±=]$/;

/** Words between which a line may break: a number keeps its uncertainty and its unit. */
function unbrokenWords(paragraph: string): readonly string[] {
  const words: string[] = [];
  let isBound = false;
  for (const word of paragraph.split(' ')) {
    const last = words.at(-1);
    const isUnit = last !== undefined && UNIT.test(word) && ENDS_IN_DIGIT.test(last);
    const bindsBack = BINDING.test(word) || isUnit || isBound;
    if (last !== undefined && bindsBack) words[words.length - 1] = `${last} ${word}`;
    else words.push(word);
    isBound = BINDING.test(word);
  }
  return words;
}

export function widthOfWord(document: Document, word: string, style: TextStyle): number {
  return piecesOf(word, style).reduce((sum, piece) => sum + widthOf(document, piece), 0);
}

/**
 * Breaks text into lines.
 *
 * @param document - whose fonts measure the text [-]
 * @param text - words apart by spaces, paragraphs by line ends [-]
 * @param style - size, weight, colour [-]
 * @param widthPt - of the column [pt]
 * @returns lines ready to be drawn, and their height [pt]
 */
export function layOut(document: Document, text: string, style: TextStyle, widthPt: number): TextBlock {
  const lines: TextLine[] = [];
  const spacePt = widthOfWord(document, ' ', style);
  for (const paragraph of text.split('\n')) {
    let pieces: PlacedPiece[] = [];
    let xPt = 0;
    const endLine = () => {
      lines.push({ pieces, widthPt: xPt });
      pieces = [];
      xPt = 0;
    };
    const words = unbrokenWords(paragraph).flatMap((word) =>
      widthOfWord(document, word, style) > widthPt ? cutToFit(document, word, style, widthPt) : [word],
    );
    for (const word of words) {
      const wordPt = widthOfWord(document, word, style);
      if (pieces.length > 0 && xPt + spacePt + wordPt > widthPt) endLine();
      const lead = pieces.length > 0 ? ' ' : '';
      for (const piece of piecesOf(lead + word, style)) {
        pieces.push({ ...piece, xPt });
        xPt += widthOf(document, piece);
      }
    }
    endLine();
  }
  return { lines, style, heightPt: lines.length * style.sizePt * LEADING };
}

/** Draws laid-out text with its upper left corner at x, y. */
export function drawText(
  document: Document,
  block: TextBlock,
  xPt: number,
  yPt: number,
  widthPt = 0,
  align: Align = 'left',
): void {
  const { sizePt, colour } = block.style;
  document.fillColor(colour);
  for (const [row, line] of block.lines.entries()) {
    const baselinePt = yPt + row * sizePt * LEADING + sizePt;
    const share = align === 'right' ? 1 : align === 'centre' ? 0.5 : 0;
    const fromPt = xPt + share * (widthPt - line.widthPt);
    for (const piece of line.pieces) {
      document
        .font(piece.font)
        .fontSize(piece.sizePt)
        .text(piece.text, fromPt + piece.xPt, baselinePt - piece.risePt, { lineBreak: false, baseline: 'alphabetic' });
    }
  }
}
