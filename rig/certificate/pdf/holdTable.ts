import type { CertificateDelivery, CertificateHold } from '../../../analysis/certificate/deliverySchema.ts';
import { alignedColumn } from './printed.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';
import { type Cell, type Column, FIGURES_TABLE, setTable } from './table.ts';

type PrintedColumn = Column & { readonly cells: readonly string[]; readonly largestU: string };

/** A column of the table: how it is headed, and its value in each hold. */
function column(
  heading: string,
  symbol: string,
  holds: readonly CertificateHold[],
  ofHold: (hold: CertificateHold) => Parameters<typeof alignedColumn>[0][number],
): PrintedColumn {
  return {
    heading,
    share: Math.max(7.5, heading.length / 2.2),
    align: 'right',
    ...alignedColumn(holds.map(ofHold), symbol),
  };
}

/** A number whose own uncertainty is not stated, with the decimals of one that is. */
const like = (value: number | null, { expandedUncertainty }: { readonly expandedUncertainty: number }) =>
  value === null ? null : { value, expandedUncertainty };

function columnsOf(holds: readonly CertificateHold[]): readonly PrintedColumn[] {
  const hasPrediction = holds.some(({ predictedSlipM3PerS }) => predictedSlipM3PerS !== null);
  const all: readonly PrintedColumn[] = [
    column('speed\nr/min', 'r/min', holds, ({ speedRevPerS }) => speedRevPerS),
    column('suction\nbar(a)', 'bar(a)', holds, ({ suctionPressurePa }) => suctionPressurePa),
    column('Δp\nbar', 'bar(a)', holds, ({ differentialPressurePa }) => differentialPressurePa),
    column('oil\n°C', 'degC', holds, ({ oilTemperatureK }) => oilTemperatureK),
    column('flow q\nl/min', 'l/min', holds, ({ flowM3PerS }) => flowM3PerS),
    column('slip\nl/min', 'l/min', holds, ({ slipM3PerS }) => slipM3PerS),
    column('slip by sheet\nl/min', 'l/min', holds, ({ predictedSlipM3PerS }) => predictedSlipM3PerS),
    column('less law\nl/min', 'l/min', holds, (hold) => like(hold.residualFlowM3PerS, hold.flowM3PerS)),
    column('q/(V_i n)\n%', '%', holds, ({ derivedEfficiency }) => derivedEfficiency),
    column('q/(V_g n)\n%', '%', holds, ({ geometricEfficiency }) => geometricEfficiency),
  ];
  return all.filter(({ heading }) => hasPrediction || !heading.startsWith('slip'));
}

/** Viscosity and density as they were taken for the law: without an uncertainty of their own in print. */
function oilColumns(holds: readonly CertificateHold[]): readonly PrintedColumn[] {
  const plainColumn = (heading: string, cells: readonly string[]): PrintedColumn => ({
    heading,
    share: 8,
    align: 'right',
    cells,
    largestU: '',
  });
  return [
    plainColumn(
      'µ\nmPa·s',
      holds.map(({ dynamicViscosityPaS }) => (1000 * dynamicViscosityPaS).toFixed(2)),
    ),
    plainColumn(
      'ρ\nkg/m³',
      holds.map(({ densityKgPerM3 }) => densityKgPerM3.toFixed(1)),
    ),
  ];
}

/** Every hold of a delivery run, a line each; below them the largest uncertainty of each column. */
export function setHolds(sheet: Sheet, { runId, holds }: CertificateDelivery): void {
  sheet.heading(`Holds of run ${runId}`);
  const measured = columnsOf(holds);
  const columns = [...measured.slice(0, 4), ...oilColumns(holds), ...measured.slice(4)];
  const numbers: PrintedColumn = {
    heading: 'no.',
    share: 5,
    cells: holds.map(({ number, leftOut }) => `${number}${leftOut === null ? '' : '†'}`),
    largestU: 'U, at most',
  };
  const all = [numbers, ...columns];
  const quiet = (text: string): Cell => [{ text, style: STYLES.quietFigures }];
  setTable(
    sheet,
    all,
    [
      ...holds.map((_, row) => all.map(({ cells }) => cells[row] ?? '')),
      all.map(({ largestU }, index) => quiet(index === 0 ? '± U' : largestU)),
    ],
    FIGURES_TABLE,
  );
  sheet.skip(2);
  const out = holds.flatMap(({ number, leftOut }) => (leftOut === null ? [] : [`hold ${number}: ${leftOut.reason}`]));
  const notes = [
    '± U: the largest expanded uncertainty in the column; that of every value stands in the attached data.',
    ...(out.length === 0 ? [] : [`† not in the fit; ${out.join('; ')}.`]),
  ];
  sheet.write(notes.join(' '), STYLES.quietFigures);
}
