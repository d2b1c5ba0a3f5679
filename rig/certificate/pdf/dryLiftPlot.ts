import type { CertificateDryLift } from '../../../analysis/certificate/dryLiftSchema.ts';
import type { DecimatedReadings } from '../../../analysis/decimate.ts';
import { EVENT_WORDS } from '../../../analysis/dryLift/eventWords.ts';
import { isLimitInSight } from '../../../analysis/dryLift/limitInSight.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { type PlotFrame, type PlotPoint, setPlot } from './plotFrame.ts';
import type { Sheet } from './sheet.ts';
import { INK, QUIET_INK, SERIES } from './style.ts';

const HEIGHT_PT = 100;

/** Shown after oil arrived, at least [s] and as a share of its time, and before the motor starts as a share of what follows: words stand there [1]. */
const AFTER_S = 2;
const AFTER_SHARE = 0.85;
const BEFORE_SHARE = 0.35;

/** Events that belong to the motor's start; the others to the arrival of oil. */
const FIRST_EVENTS: readonly string[] = ['motorStart', 'firstSuction'];

const MBAR = unitOf('mbar(a)');
const mbar = (pa: number) => differenceFrom(pa, MBAR);

function lastShownS(dryLift: CertificateDryLift): number {
  const { primingTimeS, watchedForS, estimate, motorStartS } = dryLift;
  const modelEndS = (estimate?.course.elapsedS.at(-1) ?? motorStartS) - motorStartS;
  if (primingTimeS !== null) return primingTimeS.value + Math.max(AFTER_S, AFTER_SHARE * primingTimeS.value);
  return (watchedForS ?? modelEndS) + AFTER_S;
}

function beforeS(dryLift: CertificateDryLift): number {
  return BEFORE_SHARE * lastShownS(dryLift);
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
    if (pressurePa === null || sinceStartS < -beforeS(dryLift) || sinceStartS > lastShownS(dryLift)) return [];
    return [[sinceStartS, mbar(pressurePa)]];
  });
}

/** A level in the plot, called by a word at its end. */
type Level = { readonly mbar: number; readonly word: string; readonly dash: number; readonly colour: string };

/** The estimated limit as a level, where it does not lie so far down that it would flatten the curve. */
function limitLevels({
  estimate,
  barometerPa,
  lowestSuctionPressurePa,
  columnPressurePa,
}: CertificateDryLift): readonly Level[] {
  const [limit] = estimate?.limits ?? [];
  if (limit === undefined) return [];
  const blankOffPa = limit.blankOffPressurePa.value;
  const isInSight = isLimitInSight(blankOffPa, barometerPa, lowestSuctionPressurePa?.value ?? columnPressurePa);
  return isInSight ? [{ mbar: mbar(blankOffPa), word: 'limit', dash: 1, colour: QUIET_INK }] : [];
}

function levelsOf(dryLift: CertificateDryLift): readonly Level[] {
  const { barometerPa, columnPressurePa, kind } = dryLift;
  return [
    { mbar: mbar(barometerPa), word: 'atmosphere', dash: 1, colour: QUIET_INK },
    ...(kind === 'blanked' ? [] : [{ mbar: mbar(columnPressurePa), word: 'column', dash: 4, colour: INK }]),
    ...limitLevels(dryLift),
  ];
}

function titleOf({ kind, staticLiftM }: CertificateDryLift, hasModel: boolean): string {
  const column = kind === 'blanked' ? '' : `; column: p_atm − ρ g h, ${staticLiftM.toFixed(3)} m`;
  return `suction pressure, mbar(a)${hasModel ? '; dashed: model' : ''}${column}`;
}

/** Whether there is anything to draw. */
export function hasSuctionReadings(dryLift: CertificateDryLift, readings: DecimatedReadings | undefined): boolean {
  return readings !== undefined && suctionPoints(dryLift, readings).length > 1;
}

/** Of events that lie close to one another, the words in one block: left of the first line, or right of the last. */
function drawEventWords(frame: PlotFrame, dryLift: CertificateDryLift, side: 'left' | 'right'): void {
  const events = dryLift.events.filter(({ event }) => FIRST_EVENTS.includes(event) === (side === 'left'));
  const edge = side === 'left' ? events[0] : events.at(-1);
  if (edge === undefined) return;
  frame.beside(
    [edge.atS.value - dryLift.motorStartS, mbar(dryLift.barometerPa)],
    events.map(({ event }) => EVENT_WORDS[event]),
    side,
  );
}

/** A dry start with its heading: suction pressure against time, and what the standing column asks for. */
export function setDryLiftPlot(sheet: Sheet, dryLift: CertificateDryLift, readings: DecimatedReadings): void {
  const points = suctionPoints(dryLift, readings);
  const model = modelPoints(dryLift);
  const levels = levelsOf(dryLift);
  const shown = [...levels.map((level) => level.mbar), ...points.map(([, pressure]) => pressure)];
  const spreadMbar = Math.max(...shown) - Math.min(...shown);
  const axes = {
    x: { title: 'time since motor start, s', from: -beforeS(dryLift), to: lastShownS(dryLift), ticks: 8 },
    y: {
      title: titleOf(dryLift, model.length > 1),
      from: Math.min(...shown) - 0.08 * spreadMbar,
      to: Math.max(...shown) + 0.12 * spreadMbar,
      ticks: 5,
    },
  };
  const inWords = [dryLift.inWords, ...(dryLift.estimate?.inWords ?? [])].join(' ');
  sheet.heading(`${dryLift.kind === 'blanked' ? 'Blanked dry start' : 'Dry start'}, run ${dryLift.runId}`);
  setPlot(sheet, HEIGHT_PT, axes, inWords, (frame) => {
    const [fromS = 0, toS = 0] = frame.x.domain();
    for (const level of levels) {
      const ends: readonly PlotPoint[] = [
        [fromS, level.mbar],
        [toS, level.mbar],
      ];
      frame.curve(ends, level.colour, level.dash, 0.7);
    }
    frame.endLabels(levels.map((level) => ({ text: level.word, y: level.mbar, colour: level.colour })));
    drawEventWords(frame, dryLift, 'left');
    drawEventWords(frame, dryLift, 'right');
    frame.curve(points, SERIES[0].colour, null);
    if (model.length > 1) frame.curve(model, SERIES[1].colour, SERIES[1].dash, 1.2);
    for (const { atS } of dryLift.events) frame.upright(atS.value - dryLift.motorStartS);
  });
}
