import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateDelivery } from '../../../analysis/certificate/deliverySchema.ts';
import { printFixed, printRpm } from '../../../analysis/formatStated.ts';
import { setDeliveryPlots } from './deliveryPlots.ts';
import { setDryStarts } from './dryStarts.ts';
import { setHolds } from './holdTable.ts';
import type { PlotReadings } from './plotReadings.ts';
import { plain, scientific, withUncertainty } from './printed.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';
import { type Cell, FIGURES_TABLE, setPairs, setTable } from './table.ts';

const GAP_PT = 16;

function setLaw(sheet: Sheet, { law }: CertificateDelivery): void {
  sheet.heading('Slip law');
  sheet.write(law.formula);
  sheet.skip(1.5);
  sheet.write(law.inWords, STYLES.small);
  sheet.skip(2.5);
  const { derivedCapacityM3PerRev, laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa } = law.coefficients;
  const { speedRevPerS, differentialPressurePa, oilTemperatureK } = law.range;
  const range = ([low, high]: readonly [number, number], symbol: string, digits: number) =>
    `${plain(low, symbol, digits)} to ${plain(high, symbol, digits)}`;
  setPairs(
    sheet,
    [
      [
        'V_i, derived capacity',
        `${withUncertainty(derivedCapacityM3PerRev, 'cm3/rev')}, ${scientific(derivedCapacityM3PerRev, 'm³/rev')}`,
      ],
      ['C_l, laminar slip', scientific(laminarSlipM3, 'm³')],
      ['C_t, orifice slip', scientific(orificeSlipM2, 'm²')],
      ['C_np, speed and pressure', scientific(speedPressureSlipM3PerPa, 'm³/Pa')],
      [
        'Spoken within',
        `${range(speedRevPerS, 'r/min', 3)}; Δp ${range(differentialPressurePa, 'bar(a)', 3).replaceAll('(a)', '')}; oil ${range(oilTemperatureK, 'degC', 3)}`,
      ],
      [
        'Fit',
        `${law.holdCount} holds, ${law.residualDegreesOfFreedom} degrees of freedom, reduced chi-square ${law.reducedChiSquare.toFixed(2)}`,
      ],
    ],
    0.33,
  );
}

/** The law at one hold, for a pocket calculator. */
function setWorkedLine(sheet: Sheet, { law }: CertificateDelivery): void {
  if (law.workedLine === '') return;
  sheet.skip(3);
  sheet.write(`Worked once, in SI: ${law.workedLine}`, STYLES.small);
}

function setMap(sheet: Sheet, { efficiencyMap: map }: CertificateDelivery): void {
  if (map === null) return;
  const isBeyond = map.rows.some(({ cells }) => cells.some(({ isExtrapolated }) => isExtrapolated));
  sheet.heading('Efficiency q/(V_i n), %, over speed and Δp');
  const percent = (ratio: number, decimals: number) => printFixed(100 * ratio, decimals);
  const cell = ({
    derivedEfficiency,
    expandedUncertainty,
    isExtrapolated,
  }: (typeof map.rows)[number]['cells'][number]): Cell => [
    {
      text: `${isExtrapolated ? '*' : ''}${percent(derivedEfficiency, 1)} ± ${percent(expandedUncertainty, 1)}`,
      style: isExtrapolated ? STYLES.quietFigures : STYLES.figures,
    },
  ];
  setTable(
    sheet,
    [
      { heading: 'r/min', share: 7, align: 'right' },
      ...map.differentialPressuresPa.map((pressurePa) => ({
        heading: plain(pressurePa, 'bar(a)', 3).replace('(a)', ''),
        share: 11,
        align: 'right' as const,
      })),
    ],
    map.rows.map(({ speedRevPerS, cells }) => [printRpm(speedRevPerS), ...cells.map(cell)]),
    FIGURES_TABLE,
  );
  sheet.skip(2);
  sheet.write(
    `${map.oilName} at ${plain(map.oilTemperatureK, 'degC', 3)} (µ = ${plain(map.dynamicViscosityPaS, 'mPa s', 4)}, ρ = ${plain(map.densityKgPerM3, 'kg/m3', 4)}).${isBeyond ? ' * Outside what was measured.' : ''}`,
    STYLES.quietFigures,
  );
}

function setOutlook(sheet: Sheet, { outlook }: CertificateDelivery): void {
  if (outlook.length === 0) return;
  sheet.skip(3);
  sheet.write(outlook.map(({ demandId, inWords }) => `At the duty ${demandId}: ${inWords}.`).join(' '), STYLES.small);
}

/** What was measured: plots, every hold, the law with its coefficients, the efficiency map. */
export function setMeasurements(sheet: Sheet, data: CertificateData, readings: PlotReadings): void {
  if (data.delivery.length + data.dryLift.length > 0) sheet.newPage();
  for (const delivery of data.delivery) {
    setDeliveryPlots(sheet, delivery);
    setHolds(sheet, delivery);
    sheet.together((block) => {
      block.columns(delivery.efficiencyMap === null ? [1] : [0.54, 0.46], GAP_PT, [
        (column) => setLaw(column, delivery),
        (column) => {
          setMap(column, delivery);
          setWorkedLine(column, delivery);
        },
      ]);
      setOutlook(block, delivery);
    });
  }
  setDryStarts(sheet, data, readings);
}
