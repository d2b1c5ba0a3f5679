import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateConditions } from '../../../analysis/certificate/testedSchema.ts';
import { CHANNELS } from '../../../analysis/channels.ts';
import type { DecimatedReadings } from '../../../analysis/decimate.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { DELIVERY_PLOT_HEIGHT_PT, drawEfficiencyPlot, drawFlowPlot } from './deliveryPlots.ts';
import { DRY_LIFT_PLOT_HEIGHT_PT, drawDryLiftPlot, hasSuctionReadings } from './dryLiftPlot.ts';
import { plain, withUncertainty } from './printed.ts';
import type { Sheet } from './sheet.ts';
import { STYLES } from './style.ts';
import { SMALL_TABLE, setPairs, setTable } from './table.ts';

const GAP_PT = 14;

/** Readings to be drawn, by run id. */
export type PlotReadings = Readonly<Record<string, DecimatedReadings>>;

function setPlots(sheet: Sheet, data: CertificateData, readings: PlotReadings): void {
  for (const delivery of data.delivery) {
    sheet.keepTogether(DELIVERY_PLOT_HEIGHT_PT + 30);
    sheet.heading(`Delivery, run ${delivery.runId}`);
    const widthPt = (sheet.widthPt - GAP_PT) / 2;
    drawFlowPlot(sheet.column(sheet.xPt, widthPt), delivery);
    drawEfficiencyPlot(sheet.column(sheet.xPt + widthPt + GAP_PT, widthPt), delivery);
    sheet.skip(DELIVERY_PLOT_HEIGHT_PT);
  }
  for (const dryLift of data.dryLift) {
    const drawn = readings[dryLift.runId];
    if (drawn === undefined || !hasSuctionReadings(dryLift, drawn)) continue;
    sheet.keepTogether(DRY_LIFT_PLOT_HEIGHT_PT + 30);
    sheet.heading(`${dryLift.kind === 'blanked' ? 'Blanked dry start' : 'Dry lift'}, run ${dryLift.runId}`);
    drawDryLiftPlot(sheet, dryLift, drawn);
    sheet.skip(DRY_LIFT_PLOT_HEIGHT_PT);
  }
}

function oilInWords({ oil }: CertificateConditions): string {
  const at = ({ temperatureK, kinematicViscosityM2PerS }: typeof oil.lower) =>
    `${plain(kinematicViscosityM2PerS, 'mm2/s', 4)} at ${plain(temperatureK, 'degC', 4)}`;
  const basis = oil.viscosityBasis === 'measured' ? 'measured' : 'by the grade on the can';
  const uPercent = (200 * oil.viscosityRelativeStandardUncertainty).toFixed(1);
  return `${oil.name}: ${at(oil.lower)}, ${at(oil.upper)}, ${basis} (U = ${uPercent} %); ${plain(oil.densityAt15CKgPerM3, 'kg/m3', 4)} at 15 °C`;
}

/** Runs under the same oil and set-up are told together. */
function alike(conditions: readonly CertificateConditions[]): readonly (readonly CertificateConditions[])[] {
  const groups = new Map<string, CertificateConditions[]>();
  for (const entry of conditions) {
    const key = JSON.stringify([entry.oil, entry.setUp]);
    groups.set(key, [...(groups.get(key) ?? []), entry]);
  }
  return [...groups.values()];
}

function setConditions(sheet: Sheet, runs: readonly CertificateConditions[]): void {
  const [conditions] = runs;
  if (conditions === undefined) return;
  const { setUp } = conditions;
  const barometer = { value: setUp.barometerPa.value, expandedUncertainty: 2 * setUp.barometerPa.standardUncertainty };
  const lift = { value: setUp.staticLiftM.value, expandedUncertainty: 2 * setUp.staticLiftM.standardUncertainty };
  const inlet = runs.flatMap(({ runId, oilTemperatureK }): (readonly [string, string])[] => {
    if (oilTemperatureK === null) return [];
    const { lowest, highest } = oilTemperatureK;
    return [
      ['Oil at the inlet', `${plain(lowest, 'degC', 3)} to ${plain(highest, 'degC', 3)} in the holds of ${runId}`],
    ];
  });
  setPairs(sheet, [
    [runs.length === 1 ? 'Run' : 'Runs', runs.map(({ runId }) => runId).join(', ')],
    ['Oil', oilInWords(conditions)],
    ...inlet,
    ['Barometer', withUncertainty(barometer, 'mbar(a)')],
    ['Static lift', withUncertainty(lift, 'm')],
    [
      'Suction pipe',
      `bore ${plain(setUp.suctionPipeBoreM, 'mm', 3)}, length ${plain(setUp.suctionPipeLengthM, 'm', 3)}, gas behind it ${plain(setUp.deadVolumeM3, 'cm3', 3)}`,
    ],
    ['Wetness class', setUp.wetness],
  ]);
}

/** How the laws came about: what left the fit, how well they fit, and what was found that is not slip. */
function fitPairs(data: CertificateData): (readonly [string, string])[] {
  return data.delivery.flatMap(({ runId, holds, twoStepCapacityM3PerRev, lackOfFit, checks }) => {
    const of = (name: string): string => (data.delivery.length === 1 ? name : `${name}, run ${runId}`);
    const out = holds.flatMap(({ number, leftOut }) => (leftOut === null ? [] : [`hold ${number}: ${leftOut.reason}`]));
    const signs = checks.filter(({ read }) => read === 'sign').map(({ text }) => text);
    const untold = checks.filter(({ read }) => read === 'cannot tell').map(({ name }) => name);
    const twoStep =
      twoStepCapacityM3PerRev === null ? 'not possible' : withUncertainty(twoStepCapacityM3PerRev, 'cm3/rev');
    return [
      [of('V_i by two lines'), twoStep],
      [of('Fit of the law'), lackOfFit],
      [of('Not in the fit'), out.length === 0 ? 'none of the holds' : out.join('; ')],
      [
        of('What is not slip'),
        [
          signs.length === 0 ? 'no sign of it' : signs.join(' '),
          ...(untold.length === 0 ? [] : [`not told by this run: ${untold.join(', ')}`]),
        ].join('; '),
      ],
    ] as const;
  });
}

function setTheory(sheet: Sheet, data: CertificateData): void {
  const { theory } = data;
  const none = 'no law was fitted';
  const { derivedCapacityM3PerRev: capacity, capacityRatio: ratio, flowRipple } = theory;
  setPairs(
    sheet,
    [
      ['Swept volume V_g', `${withUncertainty(theory.sweptVolumeM3PerRev, 'cm3/rev')} (${theory.basis})`],
      ['Derived capacity V_i', capacity === null ? none : withUncertainty(capacity, 'cm3/rev')],
      ['V_i / V_g', ratio === null ? none : withUncertainty(ratio, '%')],
      ['Ideal flow ripple', flowRipple === null ? 'not computed' : plain(flowRipple, '%', 3)],
      ...fitPairs(data),
    ],
    0.38,
  );
}

/** With a true minus sign. */
function signed(value: number): string {
  return String(value).replace('-', '−');
}

function setInstruments(sheet: Sheet, data: CertificateData): void {
  for (const bench of data.benches) {
    sheet.heading(`Instruments of ${bench.name} (${bench.id}, version ${bench.version})`);
    setTable(
      sheet,
      [
        { heading: 'channel', share: 24 },
        { heading: 'instrument', share: 34 },
        { heading: 'range', share: 20 },
        { heading: 'calibration', share: 20 },
        { heading: 'date', share: 13 },
        { heading: 'due', share: 13 },
        { heading: 'u of gain', share: 11, align: 'right' },
        { heading: 'u of offset', share: 15, align: 'right' },
      ],
      bench.instruments.map(({ channel, instrument, unit, range, calibration }) => [
        CHANNELS[channel].label,
        instrument,
        `${signed(range.min)} to ${signed(range.max)} ${printedUnit(unit)}`,
        calibration?.reference ?? 'none stated',
        calibration?.calibratedOn ?? '–',
        calibration?.dueOn ?? '–',
        calibration === null ? '–' : plain(calibration.gain.standardUncertainty, '%', 2),
        calibration === null ? '–' : `${calibration.offset.standardUncertainty} ${printedUnit(unit)}`,
      ]),
      SMALL_TABLE,
    );
  }
}

function setVerification(sheet: Sheet, { verification, previous }: CertificateData): void {
  sheet.heading('How to verify, and what verifying cannot know');
  sheet.write(verification.how.join(' '), STYLES.small);
  sheet.skip(2);
  sheet.write(`It cannot know: ${verification.cannotKnow.join(' ')}`, STYLES.small);
  sheet.skip(2);
  const chain =
    previous === null
      ? 'The first certificate of its archive: there is none before it.'
      : `The one before it is ${previous.number}; SHA-256 of its data ${previous.jsonSha256}, of its PDF ${previous.pdfSha256}.`;
  sheet.write(chain, STYLES.quiet);
}

/** Plots, conditions, theory beside measurement, instruments, and how to verify. */
export function setSecondPage(sheet: Sheet, data: CertificateData, readings: PlotReadings): void {
  sheet.newPage();
  setPlots(sheet, data, readings);
  const widthPt = (sheet.widthPt - GAP_PT) / 2;
  sheet.keepTogether(130);
  const left = sheet.column(sheet.xPt, widthPt);
  const right = sheet.column(sheet.xPt + widthPt + GAP_PT, widthPt);
  left.heading('Conditions');
  for (const conditions of alike(data.conditions)) {
    setConditions(left, conditions);
    left.skip(4);
  }
  right.heading('Theory beside measurement');
  setTheory(right, data);
  sheet.yPt = Math.max(left.yPt, right.yPt);
  setInstruments(sheet, data);
  setVerification(sheet, data);
}
