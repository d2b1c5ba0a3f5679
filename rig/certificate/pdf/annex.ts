import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateDelivery, CertificateHold } from '../../../analysis/certificate/deliverySchema.ts';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import { plain, scientific, uncertaintyOnly, valueOnly, withUncertainty } from './printed.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';
import { type Cell, SMALL_TABLE, setPairs, setTable } from './table.ts';

/** A run with its three hashes stays on one page. */
const RUN_HEIGHT_PT = 60;

type ValueAndU = CertificateHold['flowM3PerS'];

function cellOf(stated: ValueAndU | null, symbol: string): Cell {
  if (stated === null) return '–';
  return [
    { text: valueOnly(stated, symbol), style: STYLES.small },
    { text: `± ${uncertaintyOnly(stated, symbol)}`, style: STYLES.quiet },
  ];
}

/** With the decimals of the flow it belongs to. */
function residualCell({ residualFlowM3PerS, flowM3PerS }: CertificateHold): Cell {
  if (residualFlowM3PerS === null) return '–';
  return valueOnly({ value: residualFlowM3PerS, expandedUncertainty: flowM3PerS.expandedUncertainty }, 'l/min');
}

function holdRow(hold: CertificateHold): readonly Cell[] {
  return [
    String(hold.number),
    `${hold.startS.toFixed(1)} to ${hold.endS.toFixed(1)}`,
    cellOf(hold.speedRevPerS, 'r/min'),
    cellOf(hold.suctionPressurePa, 'bar(a)'),
    cellOf(hold.differentialPressurePa, 'bar(a)'),
    cellOf(hold.flowM3PerS, 'l/min'),
    cellOf(hold.oilTemperatureK, 'degC'),
    cellOf(hold.derivedEfficiency, '%'),
    cellOf(hold.geometricEfficiency, '%'),
    residualCell(hold),
  ];
}

function setHolds(sheet: Sheet, delivery: CertificateDelivery): void {
  sheet.heading(`Holds of run ${delivery.runId}`);
  setTable(
    sheet,
    [
      { heading: 'no.', share: 4 },
      { heading: 'time, s', share: 13 },
      { heading: 'speed, r/min', share: 9, align: 'right' },
      { heading: 'suction, bar(a)', share: 10, align: 'right' },
      { heading: 'Δp, bar', share: 8, align: 'right' },
      { heading: 'flow, l/min', share: 9, align: 'right' },
      { heading: 'oil, °C', share: 8, align: 'right' },
      { heading: 'q/(V_i n), %', share: 10, align: 'right' },
      { heading: 'q/(V_g n), %', share: 10, align: 'right' },
      { heading: 'flow less law, l/min', share: 12, align: 'right' },
    ],
    delivery.holds.map(holdRow),
    SMALL_TABLE,
  );
}

function setLaw(sheet: Sheet, { law }: CertificateDelivery): void {
  sheet.heading('Slip law');
  sheet.write(law.formula);
  sheet.skip(2);
  sheet.write(law.inWords, STYLES.small);
  sheet.skip(3);
  const { derivedCapacityM3PerRev, laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa } = law.coefficients;
  const { speedRevPerS, differentialPressurePa, oilTemperatureK } = law.range;
  const range = ([low, high]: readonly [number, number], symbol: string, digits: number) =>
    `${plain(low, symbol, digits)} to ${plain(high, symbol, digits)}`;
  setPairs(sheet, [
    ['V_i, derived capacity', withUncertainty(derivedCapacityM3PerRev, 'cm3/rev')],
    ['C_l, laminar slip', scientific(laminarSlipM3, 'm³')],
    ['C_t, orifice slip', scientific(orificeSlipM2, 'm²')],
    ['C_np, slip with speed and pressure', scientific(speedPressureSlipM3PerPa, 'm³/Pa')],
    [
      'Fit',
      `${law.holdCount} holds, ${law.residualDegreesOfFreedom} degrees of freedom, reduced chi-square ${law.reducedChiSquare.toFixed(2)}`,
    ],
    [
      'Spoken within',
      `${range(speedRevPerS, 'r/min', 3)}; Δp ${range(differentialPressurePa, 'bar(a)', 3).replaceAll('bar(a)', 'bar')}; oil ${range(oilTemperatureK, 'degC', 3)}`,
    ],
  ]);
}

function setHoldLimits(sheet: Sheet, data: CertificateData): void {
  for (const { id, version, holdLimits: limits } of data.benches) {
    sheet.heading(`What counts as a hold (bench ${id}, version ${version})`);
    const share = (ratio: number) => `± ${plain(ratio, '%', 2)}`;
    sheet.write(
      `At least ${limits.minDurationS} s in which speed stays within ${share(limits.speed)}, flow within ${share(limits.flow)}, pressures within ${share(limits.pressure)} (below 2 bar(g) within ± ${plain(limits.pressureBelow2BarPa, 'mbar(a)', 2).replace('(a)', '')}) and oil at the inlet within ± ${plain(limits.oilTemperatureK, 'K', 2)} of their mean.`,
      STYLES.small,
    );
  }
}

function setRuns(sheet: Sheet, data: CertificateData): void {
  sheet.heading('Runs it rests on');
  for (const run of data.runs) {
    sheet.keepTogether(RUN_HEIGHT_PT);
    const kind = RUN_KIND_WORDS[run.kind];
    setPairs(
      sheet,
      [
        [
          `Run ${run.id}`,
          `${kind}, ${run.label}, ${run.ending}; ${run.readingCount} readings from ${run.lineCount} lines (${run.byteLength} bytes); analysis ${run.analysisVersion}, program ${run.programVersion}`,
        ],
        ['SHA-256, run record', run.sha256.run],
        ['SHA-256, journal', run.sha256.journal],
        ['SHA-256, marks', run.sha256.marks],
      ],
      0.26,
    );
    sheet.skip(3);
  }
}

function setFindings(sheet: Sheet, data: CertificateData): void {
  sheet.heading('Findings');
  if (data.findings.length === 0) sheet.write('None.', STYLES.small);
  for (const { runId, severity, text } of data.findings) {
    sheet.write(`Run ${runId}, ${severity}: ${text}`, STYLES.small);
    sheet.skip(1.5);
  }
}

/** Tables of holds, the law, the runs with their hashes, and the findings. */
export function setAnnex(sheet: Sheet, data: CertificateData): void {
  sheet.newPage();
  sheet.write('Annex', STYLES.sentence, 'H1');
  for (const delivery of data.delivery) {
    setHolds(sheet, delivery);
    setLaw(sheet, delivery);
  }
  setHoldLimits(sheet, data);
  setFindings(sheet, data);
  setRuns(sheet, data);
}
