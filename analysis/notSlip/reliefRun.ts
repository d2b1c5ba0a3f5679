import { printFixed } from '../formatStated.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import { combine, type Source, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import { shareGoneAtTop } from './lineOfSlip.ts';
import { popOpening } from './popOpening.ts';
import {
  fullFlowOf,
  LEAST_SPAN_SHARE,
  LEAST_STROKE_POINTS,
  ofBreak,
  ofPop,
  type ReliefPressure,
  reseatOf,
  strokePressures,
} from './reliefPressures.ts';
import { reliefStrokes, type StrokePoint } from './reliefStrokes.ts';
import { inBar } from './setPoints.ts';
import { statedBar } from './statedShare.ts';
import { breakOf } from './strokeBreak.ts';

export type { ReliefPressure } from './reliefPressures.ts';

export type ReliefRun = {
  readonly speedRevPerS: number;
  readonly highestPressurePa: number;
  /** Up: where flow begins to fall faster than slip makes it. */
  readonly cracking: ReliefPressure;
  /** Up: where a twentieth of the flow is left. */
  readonly fullFlow: ReliefPressure;
  /** Down: where flow is back on the line of slip. */
  readonly reseat: ReliefPressure;
  /** Cracking less reseat [Pa]; null where one of them is missing. */
  readonly hysteresisPa: Uncertain | null;
  /** Random sources of the pressures above; those of the channels are the bench's. */
  readonly sources: readonly Source[];
  readonly text: string;
};

export type ReliefRunRefusal = {
  readonly code: 'CHANNEL_MISSING' | 'TOO_FAST' | 'NO_UP_STROKE' | 'NO_FLOW';
  readonly text: string;
};

/** Nobody says that no valve opened while more of the flow than this is gone: a house limit [1]. */
const MUCH_GONE = 0.1;

/**
 * A relief run: the bench's valve closed slowly and opened again at one speed, read as a course in time and not as holds,
 * since a valve that opens seldom lets anything stand still. Cracking is where flow leaves the line of slip, flow against
 * pressure difference; reseat is where it comes back to it. Where the valve opens along a line, that is where two straight
 * lines meet, the further one as far as three tenths of the flow are gone; where it pops, it is between the last point on the
 * line and the first off it, in time order. Full flow is where a twentieth of the flow is left. Lags of the sensors are
 * taken off; a valve whose own body follows late is read as it moves, later the quicker the stroke.
 *
 * @param readings - of the run [n readings, oldest first]
 * @param bench - bench record in force, for lags and calibration errors [-]
 * @param barometerPa - barometer of the run [Pa]
 * @param sources - of the bench's channels and the barometer [-]
 * @returns the pressure differences, each found or with the reason that it was not; or why the run says nothing [Pa]
 *
 * Source: terms cracking and reseat pressure as in ISO 5598; found by segmented regression, derived here. What counts as
 * full flow is a house limit.
 */
export function analyseReliefRun(
  readings: Readings,
  bench: BenchRecord,
  barometerPa: number,
  sources: SourceTable,
): Outcome<ReliefRun, ReliefRunRefusal> {
  const strokes = reliefStrokes(readings, bench);
  if ('missing' in strokes) {
    return no({
      code: 'CHANNEL_MISSING',
      text: `The run has no channel for ${strokes.missing.join(', ')}: a relief run cannot be read without.`,
    });
  }
  const { up, down, speedRevPerS } = strokes;
  const highest = up.at(-1);
  const lowestPa = Math.min(...up.map(({ differentialPressurePa }) => differentialPressurePa));
  const highestPressurePa = Math.max(0, ...up.map(({ differentialPressurePa }) => differentialPressurePa));
  if (highest === undefined || !(highestPressurePa - lowestPa >= LEAST_SPAN_SHARE * highestPressurePa)) {
    return no({
      code: 'NO_UP_STROKE',
      text: `The pressure difference was not raised: it lay between ${inBar(up.length > 0 ? lowestPa : 0)} and ${inBar(highestPressurePa)}. Start with the valve open, close it slowly, and open it again.`,
    });
  }
  if (up.length < LEAST_STROKE_POINTS) {
    return no({
      code: 'TOO_FAST',
      text: `The valve was closed in ${(highest.atS - (up[0]?.atS ?? 0)).toFixed(1)} s: too fast to tell where flow begins to fall. Take a minute over it.`,
    });
  }
  if (!up.some(({ flowM3PerS }) => flowM3PerS > 0)) {
    return no({
      code: 'NO_FLOW',
      text: 'The flow meter saw no flow at any pressure: a relief run is read from the flow. Look at the meter and its valves.',
    });
  }
  return yes(readStrokes(up, down, speedRevPerS, bench, barometerPa, sources));
}

function readStrokes(
  up: readonly StrokePoint[],
  down: readonly StrokePoint[],
  speedRevPerS: number,
  bench: BenchRecord,
  barometerPa: number,
  sources: SourceTable,
): ReliefRun {
  const pressures = strokePressures(bench, barometerPa);
  const highestPressurePa = Math.max(0, ...up.map(({ differentialPressurePa }) => differentialPressurePa));
  const pop = popOpening(up);
  const gradual = pop === null ? breakOf(up) : null;
  const opening = pop ?? gradual;
  const neverCracked = notCracked(shareGoneAtTop(up), highestPressurePa);
  let cracking = neverCracked;
  if (pop !== null) cracking = ofPop(pressures, up, pop, 'relief.cracking', 'cracking pressure');
  if (gradual !== null) cracking = ofBreak(pressures, up, gradual, 'relief.cracking', 'cracking pressure');
  const fullFlow = opening === null ? neverCracked : fullFlowOf(pressures, up, opening);
  const reseat = opening === null ? neverCracked : reseatOf(pressures, up, down, opening);
  const hysteresisPa =
    cracking.found && reseat.found
      ? combine(cracking.differentialPressurePa.value - reseat.differentialPressurePa.value, [
          { input: cracking.differentialPressurePa, derivative: 1 },
          { input: reseat.differentialPressurePa, derivative: -1 },
        ])
      : null;
  const added = pressures.sources();
  const table = { ...sources, ...Object.fromEntries(added.map((source) => [source.id, source])) };
  const said = (pressure: ReliefPressure, words: string): string =>
    pressure.found ? `${words} ${statedBar(pressure.differentialPressurePa, table)}.` : pressure.text;
  const text = cracking.found
    ? [
        said(cracking, 'The relief valve cracks at'),
        said(fullFlow, 'It passes nearly all of the flow at'),
        said(reseat, 'It is shut again at'),
      ].join(' ')
    : said(cracking, '');
  return { speedRevPerS, highestPressurePa, cracking, fullFlow, reseat, hysteresisPa, sources: added, text };
}

/** Nothing opened, or something did and cannot be placed. */
function notCracked(goneShare: number, highestPressurePa: number): ReliefPressure {
  if (goneShare > MUCH_GONE) {
    return {
      found: false,
      code: 'CRACKING_NOT_TOLD',
      text: `At ${inBar(highestPressurePa)} ${printFixed(100 * goneShare, 0)} % of the flow is gone, yet where the valve opened cannot be told. Take the pressure up more slowly, and begin lower.`,
    };
  }
  return {
    found: false,
    code: 'NEVER_CRACKED',
    text: `No relief valve opened up to ${inBar(highestPressurePa)}: flow falls as slip lets it. Go higher only as far as pump and bench allow.`,
  };
}
