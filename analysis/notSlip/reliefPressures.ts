import { channelValue } from '../calibration/channelSources.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { LEAST_POINTS_A_SIDE } from './hingeFit.ts';
import { type Pop, snapClosing } from './popOpening.ts';
import type { StrokePoint } from './reliefStrokes.ts';
import { inBar } from './setPoints.ts';
import { breakOf, nearest, type StrokeBreak } from './strokeBreak.ts';

/** A pressure difference that a relief run looked for; where it was not found, the code says why. */
export type ReliefPressure =
  | { readonly found: true; readonly differentialPressurePa: Uncertain }
  | { readonly found: false; readonly code: ReliefMissing; readonly text: string };

type ReliefMissing = 'NEVER_CRACKED' | 'CRACKING_NOT_TOLD' | 'NOT_FULLY_OPEN' | 'NO_DOWN_STROKE' | 'NEVER_RESEATED';

/** The valve counts as fully open when this share of the flow is left: a house limit [1]. */
const LEFT_AT_FULL_FLOW = 0.05;

/** Flow counts as back on the line of slip from this share of it up, oil a little warmer: a house limit [1]. */
const BACK_ON_LINE = 0.97;

/** The valve of the bench must raise the pressure difference by this share of its highest [1]. */
export const LEAST_SPAN_SHARE = 0.3;

export const LEAST_STROKE_POINTS = 5 * LEAST_POINTS_A_SIDE;

type OwnSource = Pick<Source, 'id' | 'label' | 'standardUncertainty' | 'degreesOfFreedom' | 'shape'>;

/** Pressure differences of a run, each with its own random source and those of the two channels. */
export type StrokePressures = {
  readonly found: (stroke: readonly StrokePoint[], pressurePa: number, own: OwnSource) => ReliefPressure;
  readonly sources: () => readonly Source[];
};

/** Where flow left the line of slip, whichever way. */
type Opening = Pick<StrokeBreak, 'pressurePa' | 'lineAtM3PerS'>;

function channelOf(bench: BenchRecord, channel: 'deliveryPressure' | 'suctionPressure') {
  const entry = bench.channels.find((candidate) => candidate.channel === channel);
  if (entry === undefined) throw new RangeError(`bench: ${bench.id} has no channel ${channel}`);
  return entry;
}

/**
 * What makes a pressure difference of a stroke an uncertain value.
 *
 * @param bench - has both pressure channels [-]
 * @param barometerPa - barometer of the run [Pa]
 * @returns maker of pressures, and the random sources made so far [Pa]
 * @throws RangeError if the bench has no such channel
 */
export function strokePressures(bench: BenchRecord, barometerPa: number): StrokePressures {
  const [deliveryChannel, suctionChannel] = [channelOf(bench, 'deliveryPressure'), channelOf(bench, 'suctionPressure')];
  const added: Source[] = [];
  return {
    sources: () => added,
    found(stroke, pressurePa, own) {
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
    },
  };
}

/**
 * Pressure difference where two lines meet.
 *
 * @param pressures - maker of pressures [-]
 * @param stroke - on which they meet [n points]
 * @param place - where [Pa]
 * @param id - of its random source [-]
 * @param what - name of the pressure, for the budget [-]
 * @returns the pressure difference [Pa]
 */
export function ofBreak(
  pressures: StrokePressures,
  stroke: readonly StrokePoint[],
  place: StrokeBreak,
  id: string,
  what: string,
): ReliefPressure {
  return pressures.found(stroke, place.pressurePa, {
    id,
    label: `${what}, scatter of flow about two straight lines`,
    standardUncertainty: place.standardUncertaintyPa,
    degreesOfFreedom: place.degreesOfFreedom,
    shape: 'normal',
  });
}

/**
 * Pressure difference where flow jumps.
 *
 * @param pressures - maker of pressures [-]
 * @param stroke - on which it jumps [n points]
 * @param pop - where, and within how much [Pa]
 * @param id - of its random source [-]
 * @param what - name of the pressure, for the budget [-]
 * @returns the pressure difference, its own error rectangular [Pa]
 */
export function ofPop(
  pressures: StrokePressures,
  stroke: readonly StrokePoint[],
  pop: Pop,
  id: string,
  what: string,
): ReliefPressure {
  return pressures.found(stroke, pop.pressurePa, {
    id,
    label: `${what}, between two readings`,
    standardUncertainty: pop.halfWidthPa / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
  });
}

/**
 * Where a twentieth of the flow on the line of slip at cracking is left, between two points that follow each other.
 *
 * @param pressures - maker of pressures [-]
 * @param up - rising stroke [n points, oldest first]
 * @param opening - where flow left the line [Pa]
 * @returns the pressure difference, or that the valve did not open fully [Pa]
 */
export function fullFlowOf(pressures: StrokePressures, up: readonly StrokePoint[], opening: Opening): ReliefPressure {
  const atCracking = opening.lineAtM3PerS(opening.pressurePa);
  const limitM3PerS = LEFT_AT_FULL_FLOW * atCracking;
  // Not while the delivery line was still filling.
  const index = up.findIndex(
    ({ flowM3PerS }, at) => flowM3PerS <= limitM3PerS && (up[at - 1]?.flowM3PerS ?? 0) > limitM3PerS,
  );
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
  return pressures.found([before, after], before.differentialPressurePa + part * spanPa, {
    id: 'relief.fullFlow',
    label: 'pressure at full flow, between two readings',
    standardUncertainty: Math.abs(spanPa) / 2 / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
  });
}

/**
 * Where flow is back on the line of slip.
 *
 * @param pressures - maker of pressures [-]
 * @param up - rising stroke [n points, oldest first]
 * @param down - falling stroke [m points, oldest first]
 * @param opening - where flow left the line [Pa]
 * @returns the pressure difference, or why it is not known [Pa]
 */
export function reseatOf(
  pressures: StrokePressures,
  up: readonly StrokePoint[],
  down: readonly StrokePoint[],
  opening: Opening,
): ReliefPressure {
  const lowestUpPa = Math.min(...up.map(({ differentialPressurePa }) => differentialPressurePa));
  const highestPa = up.at(-1)?.differentialPressurePa ?? 0;
  const lowestDownPa = Math.min(highestPa, ...down.map(({ differentialPressurePa }) => differentialPressurePa));
  if (down.length < LEAST_STROKE_POINTS || highestPa - lowestDownPa < LEAST_SPAN_SHARE * (highestPa - lowestUpPa)) {
    return {
      found: false,
      code: 'NO_DOWN_STROKE',
      text: 'Where it reseats is not known: the pressure was not let down slowly. Open the bench’s valve again over a minute before the motor is stopped.',
    };
  }
  const snap = snapClosing(down);
  const gradual = snap === null ? breakOf(down) : null;
  const lowest = nearest(down, lowestDownPa);
  const isBack = lowest !== undefined && lowest.flowM3PerS >= BACK_ON_LINE * opening.lineAtM3PerS(lowestDownPa);
  if (isBack && snap !== null) return ofPop(pressures, down, snap, 'relief.reseat', 'reseat pressure');
  if (isBack && gradual !== null) return ofBreak(pressures, down, gradual, 'relief.reseat', 'reseat pressure');
  return {
    found: false,
    code: 'NEVER_RESEATED',
    text: `It was not seen to shut again down to ${inBar(lowestDownPa)}: flow never came back to the line of slip. Look at seat and spring.`,
  };
}
