import type { CertificateDryLift } from '../../../analysis/certificate/dryLiftSchema.ts';
import type { DecimatedReadings } from '../../../analysis/decimate.ts';
import { EVENT_WORDS } from '../../../analysis/dryLift/eventWords.ts';
import { isLimitInSight } from '../../../analysis/dryLift/limitInSight.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { PlotFrame, type PlotPoint } from './plotFrame.ts';
import type { Sheet } from './sheet.ts';
import { INK, QUIET_INK, SERIES } from './style.ts';

export const DRY_LIFT_PLOT_HEIGHT_PT = 128;

/** Shown before the motor starts and after oil arrived [s]. */
const BEFORE_S = 1;
const AFTER_S = 2;

const MBAR = unitOf('mbar(a)');
const mbar = (pa: number) => differenceFrom(pa, MBAR);

function lastShownS(dryLift: CertificateDryLift): number {
  const { primingTimeS, watchedForS, estimate, motorStartS } = dryLift;
  const modelEndS = (estimate?.course.elapsedS.at(-1) ?? motorStartS) - motorStartS;
  return (primingTimeS?.value ?? watchedForS ?? modelEndS) + AFTER_S;
}

/** The same by the fitted model; empty where there is none. */
function modelPoints({ estimate, motorStartS }: CertificateDryLift): readonly PlotPoint[] {
  if (estimate === null) return [];
  const { elapsedS, suctionPressurePa } = estimate.course;
  return elapsedS.map((atS, row): PlotPoint => [atS - motorStartS, mbar(suctionPressurePa[row] ?? Number.NaN)]);
}

/** The suction pressure since motor start [s, mbar]. */
function suctionPoints(dryLift: CertificateDryLift, readings: DecimatedReadings): readonly PlotPoint[] {
  const pressuresPa = readings.channels.suctionPressure ?? [];
  return readings.elapsedS.flatMap((elapsedS, row): readonly PlotPoint[] => {
    const sinceStartS = elapsedS - dryLift.motorStartS;
    const pressurePa = pressuresPa[row] ?? null;
    if (pressurePa === null || sinceStartS < -BEFORE_S || sinceStartS > lastShownS(dryLift)) return [];
    return [[sinceStartS, mbar(pressurePa)]];
  });
}

/** The estimated limit as a level, where it does not lie so far down that it would flatten the curve. */
function limitLevels({
  estimate,
  barometerPa,
  lowestSuctionPressurePa,
  columnPressurePa,
}: CertificateDryLift): readonly (readonly [
  levelMbar: number,
  words: string,
  place: 'above' | 'below',
  isMain: boolean,
])[] {
  const [limit] = estimate?.limits ?? [];
  if (limit === undefined) return [];
  const blankOffPa = limit.blankOffPressurePa.value;
  const isInSight = isLimitInSight(blankOffPa, barometerPa, lowestSuctionPressurePa?.value ?? columnPressurePa);
  return isInSight ? [[mbar(blankOffPa), 'limit, estimated', 'below', false]] : [];
}

/** Whether there is anything to draw. */
export function hasSuctionReadings(dryLift: CertificateDryLift, readings: DecimatedReadings | undefined): boolean {
  return readings !== undefined && suctionPoints(dryLift, readings).length > 1;
}

/** Suction pressure against time, and what the standing column asks for. */
export function drawDryLiftPlot(sheet: Sheet, dryLift: CertificateDryLift, readings: DecimatedReadings): void {
  const box = { xPt: sheet.xPt, yPt: sheet.yPt, widthPt: sheet.widthPt, heightPt: DRY_LIFT_PLOT_HEIGHT_PT };
  const points = suctionPoints(dryLift, readings);
  const model = modelPoints(dryLift);
  const column = mbar(dryLift.columnPressurePa);
  const barometer = mbar(dryLift.barometerPa);
  const levels: readonly (readonly [levelMbar: number, words: string, place: 'above' | 'below', isMain: boolean])[] = [
    [barometer, 'atmosphere', 'above', false],
    ...(dryLift.kind === 'blanked'
      ? []
      : ([
          [column, `standing column, p_atm − ρ g h, h = ${dryLift.staticLiftM.toFixed(3)} m`, 'below', true],
        ] as const)),
    ...limitLevels(dryLift),
  ];
  const shown = [...levels.map(([level]) => level), ...points.map(([, pressure]) => pressure)];
  const spreadMbar = Math.max(...shown) - Math.min(...shown);
  sheet.tagged(
    'Figure',
    () => {
      const frame = new PlotFrame(
        sheet,
        box,
        { title: 'time since motor start, s', from: -BEFORE_S, to: lastShownS(dryLift), ticks: 8 },
        {
          title: model.length > 1 ? 'suction pressure, mbar(a); dashed: fitted model' : 'suction pressure, mbar(a)',
          from: Math.min(...shown) - 0.08 * spreadMbar,
          to: Math.max(...shown) + 0.12 * spreadMbar,
          ticks: 5,
        },
      );
      const [fromS = 0, toS = 0] = frame.x.domain();
      for (const [level, words, place, isMain] of levels) {
        const ends: readonly PlotPoint[] = [
          [fromS, level],
          [toS, level],
        ];
        frame.curve(ends, isMain ? INK : QUIET_INK, isMain ? 4 : 1, 0.7);
        frame.note(words, [fromS + 0.01 * (toS - fromS), level], place);
      }
      frame.curve(points, SERIES[0].colour, null);
      if (model.length > 1) frame.curve(model, SERIES[1].colour, SERIES[1].dash, 1.2);
      for (const [row, { event, atS }] of dryLift.events.entries()) {
        frame.upright(atS.value - dryLift.motorStartS, EVENT_WORDS[event], row);
      }
    },
    [dryLift.inWords, ...(dryLift.estimate?.inWords ?? [])].join(' '),
  );
}
