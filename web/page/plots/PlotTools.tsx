import type { RefObject } from 'preact';
import { useState } from 'preact/hooks';
import { Wide } from '../shell/Wide.tsx';
import { cellText, csvOf, type PlotTable } from './plotTable.ts';
import { fileName, saveFile } from './saveFile.ts';
import { svgPicture } from './svgPicture.ts';

/** Rows that a table on the page has at most; the file has all [-]. */
const MOST_ROWS = 200;

function Numbers({ title, table }: { readonly title: string; readonly table: PlotTable }) {
  const { columns, rows } = table;
  return (
    <Wide label={`${title}: numbers`}>
      <table class="plot-numbers">
        {rows.length > MOST_ROWS && (
          <caption>
            The first {MOST_ROWS} of {rows.length} rows; the CSV has them all.
          </caption>
        )}
        <thead>
          <tr>
            {columns.map((column, index) => (
              <th key={column} scope="col" class={typeof rows[0]?.[index] === 'string' ? '' : 'number'}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, MOST_ROWS).map((row, at) => (
            <tr key={at}>
              {row.map((cell, index) => (
                <td key={columns[index]} class={typeof cell === 'string' ? '' : 'number'}>
                  {cellText(cell)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function legendIn(figure: Element): Parameters<typeof svgPicture>[2] {
  return [...figure.querySelectorAll('.legend li')].flatMap((entry) => {
    const swatch = entry.querySelector('svg');
    return swatch instanceof SVGSVGElement ? [{ swatch, words: entry.textContent?.trim() ?? '' }] : [];
  });
}

/**
 * What every plot offers besides itself: its numbers as a table and as a CSV file, and its picture as an SVG file.
 *
 * @param figure - element around the drawing (the first one within a `[data-drawing]`) and its legend [-]
 */
export function PlotTools(tools: {
  readonly title: string;
  readonly table: () => PlotTable;
  readonly figure: RefObject<HTMLElement | null>;
}) {
  const { title, table, figure } = tools;
  const [isOpen, setOpen] = useState(false);
  const savePicture = (): void => {
    const drawing = figure.current?.querySelector('[data-drawing] svg');
    if (figure.current === null || !(drawing instanceof SVGSVGElement)) return;
    saveFile(fileName(title, 'svg'), svgPicture(drawing, title, legendIn(figure.current)), 'image/svg+xml');
  };
  const saveTable = (): void => saveFile(fileName(title, 'csv'), csvOf(table()), 'text/csv;charset=utf-8');
  return (
    <div class="plot-tools">
      <p>
        <button
          type="button"
          class="quiet"
          aria-expanded={isOpen}
          aria-label={`numbers of ${title}`}
          onClick={() => setOpen(!isOpen)}
        >
          numbers
        </button>
        <button type="button" class="quiet" aria-label={`CSV of ${title}`} onClick={saveTable}>
          CSV
        </button>
        <button type="button" class="quiet" aria-label={`picture of ${title}`} onClick={savePicture}>
          picture
        </button>
      </p>
      {isOpen && <Numbers title={title} table={table()} />}
    </div>
  );
}
