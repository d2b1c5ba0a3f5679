import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateDryTogether } from '../../../analysis/certificate/dryLiftSchema.ts';
import { printRpm } from '../../../analysis/formatStated.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { PlotFrame, type PlotPoint } from './plotFrame.ts';
import type { Sheet } from './sheet.ts';
import { SERIES } from './style.ts';

const HEIGHT_PT = 116;
const TICKS = { x: 6, y: 5 } as const;
/** Room over the highest thing drawn [1]. */
const HEADROOM = 1.06;

const RPM = unitOf('r/min');
const rpm = (speedRevPerS: number): number => differenceFrom(speedRevPerS, RPM);

const [MEASURED, ESTIMATED] = SERIES;

/** Lifts of the same class from which oil came, with the times that it took. */
function provenLifts(data: CertificateData, wetness: CertificateDryTogether['wetness']) {
  return data.dryLift.filter((start) => start.kind === 'lift' && start.hasPrimed && start.wetness === wetness);
}

type Proven = ReturnType<typeof provenLifts>;

function drawLimit(sheet: Sheet, together: CertificateDryTogether, proven: Proven): void {
  const { limitAgainstSpeed, limits, inWords } = together;
  const speeds = [...limitAgainstSpeed, ...limits].map(({ speedRevPerS }) => rpm(speedRevPerS));
  const highestM = Math.max(...limitAgainstSpeed.map(({ limitM }) => limitM.upper));
  const box = { xPt: sheet.xPt, yPt: sheet.yPt, widthPt: sheet.widthPt, heightPt: HEIGHT_PT * sheet.layout.scale };
  sheet.tagged(
    'Figure',
    () => {
      const frame = new PlotFrame(
        sheet,
        box,
        { title: 'speed, r/min', from: Math.min(...speeds), to: Math.max(...speeds), ticks: TICKS.x },
        {
          title: 'lift, m: filled proven; dashed limit, estimated, with 95 % band',
          from: 0,
          to: HEADROOM * highestM,
          ticks: TICKS.y,
        },
      );
      frame.band(
        limitAgainstSpeed.map(({ speedRevPerS, limitM }) => [rpm(speedRevPerS), limitM.lower, limitM.upper]),
        ESTIMATED.colour,
      );
      frame.curve(
        limitAgainstSpeed.map(({ speedRevPerS, limitM }): PlotPoint => [rpm(speedRevPerS), limitM.value]),
        ESTIMATED.colour,
        ESTIMATED.dash,
      );
      for (const { speedRevPerS, limitM } of limits) {
        frame.point([rpm(speedRevPerS), limitM.value], (limitM.upper - limitM.lower) / 2, ESTIMATED, false);
      }
      for (const { speedRevPerS, staticLiftM } of proven) {
        frame.point([rpm(speedRevPerS), staticLiftM], 0, MEASURED, true);
      }
    },
    inWords.join(' '),
  );
}

function drawTime(sheet: Sheet, together: CertificateDryTogether, proven: Proven): void {
  const { timeAgainstLift, timeSpeedRevPerS } = together;
  const times = timeAgainstLift.flatMap(({ liftM, timeS: { value, lower, upper } }) =>
    value === null || lower === null || upper === null ? [] : [{ liftM, value, lower, upper }],
  );
  const speed = timeSpeedRevPerS === null ? '' : ` at ${printRpm(timeSpeedRevPerS)} r/min`;
  const highestS = Math.max(...times.map(({ upper }) => upper), ...proven.map((at) => at.primingTimeS?.value ?? 0));
  const box = { xPt: sheet.xPt, yPt: sheet.yPt, widthPt: sheet.widthPt, heightPt: HEIGHT_PT * sheet.layout.scale };
  sheet.tagged(
    'Figure',
    () => {
      const frame = new PlotFrame(
        sheet,
        box,
        { title: 'lift, m', from: 0, to: Math.max(...times.map(({ liftM }) => liftM)), ticks: TICKS.x },
        {
          title: `priming time${speed}, s: filled measured; dashed model, its 95 % band`,
          from: 0,
          to: HEADROOM * highestS,
          ticks: TICKS.y,
        },
      );
      frame.band(
        times.map(({ liftM, lower, upper }) => [liftM, lower, upper]),
        ESTIMATED.colour,
      );
      frame.curve(
        times.map(({ liftM, value }): PlotPoint => [liftM, value]),
        ESTIMATED.colour,
        ESTIMATED.dash,
      );
      for (const { staticLiftM, primingTimeS } of proven) {
        if (primingTimeS === null) continue;
        frame.point([staticLiftM, primingTimeS.value], primingTimeS.expandedUncertainty, MEASURED, true);
      }
    },
    `Priming time against lift${speed}, by the model with its band of 95 %, and as measured.`,
  );
}

/** Of every joint fit the limit against speed and the time against lift, each with its heading, ready to be set. */
export function togetherPlots(data: CertificateData): readonly ((column: Sheet) => void)[] {
  return data.dryLiftTogether.flatMap((together) => {
    const proven = provenLifts(data, together.wetness);
    const plot =
      (heading: string, draw: typeof drawLimit) =>
      (column: Sheet): void => {
        column.heading(`${heading}, class ${together.wetness}`);
        draw(column, together, proven);
        column.yPt += HEIGHT_PT * column.layout.scale;
      };
    return [
      plot('Lift against speed', drawLimit),
      ...(together.timeAgainstLift.length > 1 ? [plot('Priming time against lift', drawTime)] : []),
    ];
  });
}
