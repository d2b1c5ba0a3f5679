import type { CertificateDryLift } from '../../../analysis/certificate/certificateData.ts';
import type { DecimatedReadings } from '../../../analysis/decimate.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { PlotFrame, type PlotPoint } from './plotFrame.ts';
import type { Sheet } from './sheet.ts';
import { INK, QUIET_INK, SERIES } from './style.ts';

export const DRY_LIFT_PLOT_HEIGHT_PT = 150;

/** Shown before the motor starts and after oil arrived [s]. */
const BEFORE_S = 1;
const AFTER_S = 2;

const MBAR = unitOf('mbar(a)');
const mbar = (pa: number) => differenceFrom(pa, MBAR);

function lastShownS({ primingTimeS, watchedForS }: CertificateDryLift): number {
  return (primingTimeS?.value ?? watchedForS ?? 0) + AFTER_S;
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

/** Whether there is anything to draw. */
export function hasSuctionReadings(dryLift: CertificateDryLift, readings: DecimatedReadings | undefined): boolean {
  return readings !== undefined && suctionPoints(dryLift, readings).length > 1;
}

/** Suction pressure against time, and what the standing column asks for. */
export function drawDryLiftPlot(sheet: Sheet, dryLift: CertificateDryLift, readings: DecimatedReadings): void {
  const box = { xPt: sheet.xPt, yPt: sheet.yPt, widthPt: sheet.widthPt, heightPt: DRY_LIFT_PLOT_HEIGHT_PT };
  const points = suctionPoints(dryLift, readings);
  const column = mbar(dryLift.columnPressurePa);
  const barometer = mbar(dryLift.barometerPa);
  const shown = [column, barometer, ...points.map(([, pressure]) => pressure)];
  const spreadMbar = Math.max(...shown) - Math.min(...shown);
  sheet.tagged(
    'Figure',
    () => {
      const frame = new PlotFrame(
        sheet,
        box,
        { title: 'time since motor start, s', from: -BEFORE_S, to: lastShownS(dryLift), ticks: 8 },
        {
          title: 'suction pressure, mbar(a)',
          from: Math.min(...shown) - 0.08 * spreadMbar,
          to: Math.max(...shown) + 0.12 * spreadMbar,
          ticks: 5,
        },
      );
      const [fromS = 0, toS = 0] = frame.x.domain();
      for (const [level, words, place] of [
        [barometer, 'atmosphere', 'above'],
        [column, `standing column, p_atm − ρ g h, h = ${dryLift.staticLiftM.toFixed(3)} m`, 'below'],
      ] as const) {
        const ends: readonly PlotPoint[] = [
          [fromS, level],
          [toS, level],
        ];
        frame.curve(ends, level === column ? INK : QUIET_INK, level === column ? 4 : 1, 0.7);
        frame.note(words, [fromS + 0.01 * (toS - fromS), level], place);
      }
      frame.curve(points, SERIES[0].colour, null);
      const { oilAtInletS, primingTimeS, motorStartS } = dryLift;
      if (oilAtInletS !== null) frame.upright(oilAtInletS - motorStartS, 'oil at the inlet', 0);
      if (primingTimeS !== null) frame.upright(primingTimeS.value, 'delivers', 1);
    },
    dryLift.inWords,
  );
}
