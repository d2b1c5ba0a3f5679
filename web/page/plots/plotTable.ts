/** What a plot shows, as numbers. */
export type PlotTable = {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number | null)[])[];
};

/** Digits that a number of a plot is worth: more than the eye reads off it, fewer than a double has [-]. */
const DIGITS = 7;

/** A number as a file has it: a point, no separators. */
function plainNumber(value: number): string {
  return String(Number(value.toPrecision(DIGITS)));
}

/** A cell as the page has it. */
export function cellText(cell: string | number | null): string {
  if (cell === null) return '–';
  return typeof cell === 'number' ? plainNumber(cell).replace('-', '−') : cell;
}

function csvField(cell: string | number | null): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return plainNumber(cell);
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** The table as CSV (RFC 4180), with its headings. */
export function csvOf({ columns, rows }: PlotTable): string {
  return [columns, ...rows].map((row) => `${row.map(csvField).join(',')}\r\n`).join('');
}
