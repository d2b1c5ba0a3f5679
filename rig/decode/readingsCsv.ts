import { CHANNEL_NAMES, CHANNELS } from '../../analysis/channels.ts';
import { type Column, QUALITY, type Readings } from '../../analysis/readings.ts';
import type { Quantity } from '../../analysis/units.ts';

/** SI, as the import reads them. */
const SI_SYMBOLS: Readonly<Partial<Record<Quantity, string>>> = {
  time: 's',
  pressure: 'Pa(a)',
  flow: 'm3/s',
  speed: 'rev/s',
  temperature: 'K',
  torque: 'N m',
  power: 'W',
  length: 'm',
};

const LINE_END = '\r\n';
const QUALITY_WORDS = new Map<number, string>(Object.entries(QUALITY).map(([word, code]) => [code, word]));

type CsvColumn = { readonly name: string; readonly title: string; readonly label: string; readonly column: Column };

function columnsOf({ channels }: Readings): readonly CsvColumn[] {
  return CHANNEL_NAMES.flatMap((name) => {
    const column = channels[name];
    const { quantity, label } = CHANNELS[name];
    return column === undefined ? [] : [{ name, title: `${name} [${SI_SYMBOLS[quantity]}]`, label, column }];
  });
}

/** Blanks where a value is missing; every digit of it else. */
function cell({ values }: Column, row: number): string {
  const value = values[row] ?? Number.NaN;
  return Number.isNaN(value) ? '' : String(value);
}

function remark(columns: readonly CsvColumn[], row: number): string {
  return columns
    .filter(({ column }) => column.quality[row] !== QUALITY.good)
    .map(({ name, column }) => `${name}: ${QUALITY_WORDS.get(column.quality[row] ?? 0)}`)
    .join('; ');
}

/**
 * Readings as CSV (RFC 4180), in pieces of some thousand rows: a heading with the unit for each column, SI values with every
 * digit, and last which values are not to be trusted, and why.
 *
 * @param readings - of a run [SI]
 */
export function* readingsCsv(readings: Readings): Generator<string> {
  const columns = columnsOf(readings);
  yield `${['elapsed [s]', ...columns.map(({ title }) => title), 'not good'].join(',')}${LINE_END}`;
  const rowsInAPiece = 5000;
  for (let start = 0; start < readings.elapsedS.length; start += rowsInAPiece) {
    const end = Math.min(readings.elapsedS.length, start + rowsInAPiece);
    let piece = '';
    for (let row = start; row < end; row += 1) {
      const cells = columns.map(({ column }) => cell(column, row));
      piece += `${readings.elapsedS[row]},${cells.join(',')},${remark(columns, row)}${LINE_END}`;
    }
    yield piece;
  }
}

/**
 * What the columns of {@link readingsCsv} are, for programs: W3C "Metadata Vocabulary for Tabular Data" (2015). It lies beside
 * the CSV, under its name with '-metadata.json' behind it.
 *
 * @param readings - of the run [SI]
 * @param fileName - of the CSV [-]
 * @param runId - of the run [-]
 */
export function readingsCsvMetadata(readings: Readings, fileName: string, runId: string): object {
  const quantity = (name: string, titles: string, label: string) => ({
    name,
    titles,
    datatype: 'number',
    'dc:description': label,
  });
  return {
    '@context': 'http://www.w3.org/ns/csvw',
    url: fileName,
    'dc:title': `readings of run ${runId}, decoded from its journal`,
    dialect: { delimiter: ',', header: true, lineTerminators: [LINE_END], encoding: 'utf-8' },
    tableSchema: {
      columns: [
        { ...quantity('elapsed', 'elapsed [s]', 'time since the first reading'), required: true },
        ...columnsOf(readings).map(({ name, title, label }) => quantity(name, title, label)),
        {
          name: 'notGood',
          titles: 'not good',
          datatype: 'string',
          'dc:description': 'values of the row that are not to be trusted: missing, outOfRange, sensorFault',
        },
      ],
    },
  };
}
