import { channelValue } from '../calibration/channelSources.ts';
import { printFixed } from '../formatStated.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import { combine, type Source, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import { LEAST_POINTS_A_SIDE } from './hingeFit.ts';
import { type PopOpening, popOpening, shareGoneAtTop } from './popOpening.ts';
import { reliefStrokes, type StrokePoint } from './reliefStrokes.ts';
import { inBar } from './setPoints.ts';
import { statedBar } from './statedShare.ts';
import { breakOf, nearest, type StrokeBreak } from './strokeBreak.ts';

/** A pressure difference that a relief run looked for; where it was not found, the code says why. */
export type ReliefPressure =
  | { readonly found: true; readonly differentialPressurePa: Uncertain }
  | { readonly found: false; readonly code: ReliefMissing; readonly text: string };

type ReliefMissing = 'NEVER_CRACKED' | 'CRACKING_NOT_TOLD' | 'NOT_FULLY_OPEN' | 'NO_DOWN_STROKE' | 'NEVER_RESEATED';

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

/** The valve counts as fully open when this share of the flow is left: a house limit [1]. */
const LEFT_AT_FULL_FLOW = 0.05;

/** Flow counts as back on the line of slip from this share of it up, oil a little warmer: a house limit [1]. */
const BACK_ON_LINE = 0.97;

/** The valve of the bench must raise the pressure difference by this share of its highest [1]. */
const LEAST_SPAN_SHARE = 0.3;

const LEAST_POINTS = 5 * LEAST_POINTS_A_SIDE;

function channelOf(bench: BenchRecord, channel: 'deliveryPressure' | 'suctionPressure') {
  const entry = bench.channels.find((candidate) => candidate.channel === channel);
  if (entry === undefined) throw new RangeError(`bench: ${bench.id} has no channel ${channel}`);
  return entry;
}

/**
 * A relief run: the bench's valve closed slowly and opened again at one speed, read as a course in time and not as holds,
 * since a valve that opens seldom lets anything stand still. Cracking and reseat are where two straight lines through
 * flow against pressure difference meet, on the way up and on the way down, the upper line as far as three tenths of the
 * flow are gone; full flow is where a twentieth of the flow is left.
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
  const highestPressurePa = highest?.differentialPressurePa ?? 0;
  if (highest === undefined || !(highestPressurePa - lowestPa >= LEAST_SPAN_SHARE * highestPressurePa)) {
    return no({
      code: 'NO_UP_STROKE',
      text: `The pressure difference was not raised: it lay between ${inBar(up.length > 0 ? lowestPa : 0)} and ${inBar(highestPressurePa)}. Start with the valve open, close it slowly, and open it again.`,
    });
  }
  if (up.length < LEAST_POINTS) {
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
  const added: Source[] = [];
  const highestPressurePa = up.at(-1)?.differentialPressurePa ?? 0;
  const [deliveryChannel, suctionChannel] = [channelOf(bench, 'deliveryPressure'), channelOf(bench, 'suctionPressure')];
  const found = (
    stroke: readonly StrokePoint[],
    pressurePa: number,
    own: Pick<Source, 'id' | 'label' | 'standardUncertainty' | 'degreesOfFreedom' | 'shape'>,
  ): ReliefPressure => {
    added.push({ ...own, kind: 'random', pooledAs: null });
    const at = nearest(stroke, pressurePa);
    const difference = combine(pressurePa, [
      { input: channelValue(deliveryChannel, at?.deliveryPressurePa ?? 0, barometerPa), derivative: 1 },
      { input: channelValue(suctionChannel, at?.suctionPressurePa ?? 0, barometerPa), derivative: -1 },
    ]);
    return {
      found: true,
      differentialPressurePa: { ...difference, sensitivities: { ...difference.sensitivities, [own.id]: 1 } },
    };
  };
  const ofBreak = (stroke: readonly StrokePoint[], place: StrokeBreak, id: string, label: string): ReliefPressure =>
    found(stroke, place.pressurePa, {
      id,
      label,
      standardUncertainty: place.standardUncertaintyPa,
      degreesOfFreedom: place.degreesOfFreedom,
      shape: 'normal',
    });

  const pop = popOpening(up, down);
  const gradual = pop === null ? breakOf(up) : null;
  const opening: Opening | null = pop ?? gradual;
  const gradualCracking = (): ReliefPressure => {
    const label = 'cracking pressure, scatter of flow about two straight lines';
    return gradual === null ? neverCracked : ofBreak(up, gradual, 'relief.cracking', label);
  };
  const poppedCracking = ({ pressurePa, halfWidthPa }: PopOpening): ReliefPressure =>
    found(up, pressurePa, {
      id: 'relief.cracking',
      label: 'cracking pressure, between two readings',
      standardUncertainty: halfWidthPa / Math.sqrt(3),
      degreesOfFreedom: null,
      shape: 'rectangular',
    });
  const goneShare = shareGoneAtTop(up);
  const neverCracked: ReliefPressure =
    goneShare > MUCH_GONE
      ? {
          found: false,
          code: 'CRACKING_NOT_TOLD',
          text: `At ${inBar(highestPressurePa)} ${printFixed(100 * goneShare, 0)} % of the flow is gone, yet where the valve opened cannot be told. Take the pressure up more slowly, and begin lower.`,
        }
      : {
          found: false,
          code: 'NEVER_CRACKED',
          text: `No relief valve opened up to ${inBar(highestPressurePa)}: flow falls as slip lets it. Go higher only as far as pump and bench allow.`,
        };
  const cracking = pop === null ? gradualCracking() : poppedCracking(pop);
  const fullFlow = opening === null ? neverCracked : fullFlowOf(up, opening, found);
  const reseat = opening === null ? neverCracked : reseatOf(up, down, opening, ofBreak);
  const hysteresisPa =
    cracking.found && reseat.found
      ? combine(cracking.differentialPressurePa.value - reseat.differentialPressurePa.value, [
          { input: cracking.differentialPressurePa, derivative: 1 },
          { input: reseat.differentialPressurePa, derivative: -1 },
        ])
      : null;
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

type Found = (
  stroke: readonly StrokePoint[],
  pressurePa: number,
  own: Pick<Source, 'id' | 'label' | 'standardUncertainty' | 'degreesOfFreedom' | 'shape'>,
) => ReliefPressure;

type Opening = Pick<StrokeBreak, 'pressurePa' | 'lineAtM3PerS'>;

function fullFlowOf(up: readonly StrokePoint[], opening: Opening, found: Found): ReliefPressure {
  const atCracking = nearest(up, opening.pressurePa)?.flowM3PerS ?? 0;
  const limitM3PerS = LEFT_AT_FULL_FLOW * atCracking;
  const index = up.findIndex(({ flowM3PerS }) => flowM3PerS <= limitM3PerS);
  const [before, after] = [up[index - 1], up[index]];
  if (before === undefined || after === undefined) {
    const left = Math.min(...up.map(({ flowM3PerS }) => flowM3PerS)) / atCracking;
    return {
      found: false,
      code: 'NOT_FULLY_OPEN',
      text: `The valve did not open fully: at the highest pressure ${(100 * left).toFixed(0)} % of the flow still reached the meter. Close the bench's valve further.`,
    };
  }
  const part = (before.flowM3PerS - limitM3PerS) / (before.flowM3PerS - after.flowM3PerS);
  const spanPa = after.differentialPressurePa - before.differentialPressurePa;
  return found(up, before.differentialPressurePa + part * spanPa, {
    id: 'relief.fullFlow',
    label: 'pressure at full flow, between two readings',
    standardUncertainty: Math.abs(spanPa) / 2 / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
  });
}

function reseatOf(
  up: readonly StrokePoint[],
  down: readonly StrokePoint[],
  opening: Opening,
  ofBreak: (stroke: readonly StrokePoint[], place: StrokeBreak, id: string, label: string) => ReliefPressure,
): ReliefPressure {
  const lowestUpPa = Math.min(...up.map(({ differentialPressurePa }) => differentialPressurePa));
  const highestPa = up.at(-1)?.differentialPressurePa ?? 0;
  const lowestDownPa = Math.min(highestPa, ...down.map(({ differentialPressurePa }) => differentialPressurePa));
  if (down.length < LEAST_POINTS || highestPa - lowestDownPa < LEAST_SPAN_SHARE * (highestPa - lowestUpPa)) {
    return {
      found: false,
      code: 'NO_DOWN_STROKE',
      text: 'Where it reseats is not known: the pressure was not let down slowly. Open the bench’s valve again over a minute before the motor is stopped.',
    };
  }
  const closing = breakOf(down);
  const lowest = nearest(down, lowestDownPa);
  const isBack = lowest !== undefined && lowest.flowM3PerS >= BACK_ON_LINE * opening.lineAtM3PerS(lowestDownPa);
  if (closing === null || !isBack) {
    return {
      found: false,
      code: 'NEVER_RESEATED',
      text: `It was not seen to shut again down to ${inBar(lowestDownPa)}: flow never came back to the line of slip. Look at seat and spring.`,
    };
  }
  return ofBreak(down, closing, 'relief.reseat', 'reseat pressure, scatter of flow about two straight lines');
}
