import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertificateDryTogether } from '../../../analysis/certificate/dryLiftSchema.ts';
import { printRpm } from '../../../analysis/formatStated.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { type PlotFrame, type PlotPoint, setPlot } from './plotFrame.ts';
import type { Sheet } from './sheet.ts';
import { SERIES } from './style.ts';

const HEIGHT_PT = 100;
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

type Row = { readonly x: number; readonly value: number; readonly lower: number; readonly upper: number };

/** What is estimated along an axis: its band, and a dashed line through it. */
function drawEstimate(frame: PlotFrame, rows: readonly Row[]): void {
  frame.band(
    rows.map(({ x, lower, upper }) => [x, lower, upper]),
    ESTIMATED.colour,
  );
  frame.curve(
    rows.map(({ x, value }): PlotPoint => [x, value]),
    ESTIMATED.colour,
    ESTIMATED.dash,
  );
}

function setLimit(sheet: Sheet, together: CertificateDryTogether, proven: Proven): void {
  const { limitAgainstSpeed, limits, inWords } = together;
  const rows = limitAgainstSpeed.map(({ speedRevPerS, limitM }): Row => ({ x: rpm(speedRevPerS), ...limitM }));
  const speeds = [...limitAgainstSpeed, ...limits].map(({ speedRevPerS }) => rpm(speedRevPerS));
  const axes = {
    x: { title: 'speed, r/min', from: Math.min(...speeds), to: Math.max(...speeds), ticks: TICKS.x },
    y: {
      title: 'lift, m: filled proven; dashed limit, estimated, with 95 % band',
      from: 0,
      to: HEADROOM * Math.max(...rows.map(({ upper }) => upper)),
      ticks: TICKS.y,
    },
  };
  setPlot(sheet, HEIGHT_PT, axes, inWords.join(' '), (frame) => {
    drawEstimate(frame, rows);
    for (const { speedRevPerS, limitM } of limits) {
      frame.point([rpm(speedRevPerS), limitM.value], (limitM.upper - limitM.lower) / 2, ESTIMATED, false);
    }
    for (const { speedRevPerS, staticLiftM } of proven) {
      frame.point([rpm(speedRevPerS), staticLiftM], 0, MEASURED, true);
    }
  });
}

function setTime(sheet: Sheet, together: CertificateDryTogether, proven: Proven): void {
  const { timeAgainstLift, timeSpeedRevPerS } = together;
  const rows = timeAgainstLift.flatMap(({ liftM, timeS: { value, lower, upper } }): readonly Row[] =>
    value === null || lower === null || upper === null ? [] : [{ x: liftM, value, lower, upper }],
  );
  const speed = timeSpeedRevPerS === null ? '' : ` at ${printRpm(timeSpeedRevPerS)} r/min`;
  const highestS = Math.max(...rows.map(({ upper }) => upper), ...proven.map((at) => at.primingTimeS?.value ?? 0));
  const axes = {
    x: { title: 'lift, m', from: 0, to: Math.max(...rows.map(({ x }) => x)), ticks: TICKS.x },
    y: {
      title: `priming time${speed}, s: filled measured; dashed model, its 95 % band`,
      from: 0,
      to: HEADROOM * highestS,
      ticks: TICKS.y,
    },
  };
  const inWords = `Priming time against lift${speed}, by the model with its band of 95 %, and as measured.`;
  setPlot(sheet, HEIGHT_PT, axes, inWords, (frame) => {
    drawEstimate(frame, rows);
    for (const { staticLiftM, primingTimeS } of proven) {
      if (primingTimeS === null) continue;
      frame.point([staticLiftM, primingTimeS.value], primingTimeS.expandedUncertainty, MEASURED, true);
    }
  });
}

/** Of every joint fit the limit against speed and the time against lift, each with its heading, ready to be set. */
export function togetherPlots(data: CertificateData): readonly ((column: Sheet) => void)[] {
  return data.dryLiftTogether.flatMap((together) => {
    const proven = provenLifts(data, together.wetness);
    const plot =
      (heading: string, set: typeof setLimit) =>
      (column: Sheet): void => {
        column.heading(`${heading}, class ${together.wetness}`);
        set(column, together, proven);
      };
    return [
      plot('Lift against speed', setLimit),
      ...(together.timeAgainstLift.length > 1 ? [plot('Priming time against lift', setTime)] : []),
    ];
  });
}
