import { type Coefficients, flowAtUncertainPoint } from '../delivery/slipLaw.ts';
import { formatStated } from '../formatStated.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Source, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { unitOf } from '../units.ts';
import { inBar, isSameSpeed, takenInOrder } from './setPoints.ts';

/** Shares of the flow whose loss is looked for [1]. */
const SUCTION_LOSSES = [0.01, 0.05] as const;
type SuctionLoss = (typeof SUCTION_LOSSES)[number];

/** A hold of a suction run: what it lost against the hold at the smallest vacuum. */
type SuctionPoint = {
  readonly holdNumber: number;
  readonly suctionPressurePa: Uncertain;
  /** Share of the reference flow that is missing, slip made alike [1]. */
  readonly lost: Uncertain;
};

type LossPressure =
  | {
      readonly reached: true;
      readonly lostShare: SuctionLoss;
      /** At the inlet, absolute [Pa]. */
      readonly suctionPressurePa: Uncertain;
      /** Barometer minus suction pressure [Pa]. */
      readonly vacuumPa: Uncertain;
      readonly text: string;
    }
  | { readonly reached: false; readonly lostShare: SuctionLoss; readonly downToPa: Uncertain; readonly text: string };

export type SuctionRun = {
  readonly referenceHoldNumber: number;
  /** Smallest vacuum first. */
  readonly points: readonly SuctionPoint[];
  readonly losses: readonly LossPressure[];
  /** False: no slip law was at hand, and a little more slip at the greater pressure difference counts as lost. */
  readonly isSlipMadeAlike: boolean;
  /** Of the interpolation; besides those of the holds. */
  readonly sources: readonly Source[];
};

export type SuctionRunRefusal = {
  readonly code: 'TOO_FEW_HOLDS' | 'SPEED_NOT_HELD' | 'SUCTION_NOT_VARIED';
  readonly text: string;
};

const LEAST_HOLDS = 3;

/** Less than this says nothing of the suction side [Pa]. */
const LEAST_SPAN_PA = 5e3;

function refusalOf(taken: readonly HoldState[]): SuctionRunRefusal | null {
  const [first] = taken;
  if (first === undefined || taken.length < LEAST_HOLDS) {
    return {
      code: 'TOO_FEW_HOLDS',
      text: `Only ${taken.length} holds: a suction run takes ${LEAST_HOLDS} or more, from the open suction to a deep vacuum. Throttle the suction in steps and hold each.`,
    };
  }
  if (!taken.every((hold) => isSameSpeed(first, hold))) {
    return {
      code: 'SPEED_NOT_HELD',
      text: 'The speed was not the same in all holds: a suction run speaks of one speed. Repeat it and leave the speed alone.',
    };
  }
  const suctions = taken.map((hold) => hold.suctionPressurePa.value);
  const spanPa = Math.max(...suctions) - Math.min(...suctions);
  if (spanPa < LEAST_SPAN_PA) {
    return {
      code: 'SUCTION_NOT_VARIED',
      text: `The suction pressure was varied by ${inBar(spanPa)} only; it takes ${inBar(LEAST_SPAN_PA)} or more. Close the suction throttle further.`,
    };
  }
  return null;
}

/** 1 − q/q', with q' the reference flow made alike in speed, and by the law in pressure difference and oil. */
function lostAgainst(reference: HoldState, hold: HoldState, coefficients: Coefficients | null): Uncertain {
  const [flow, start] = [hold.inletFlowM3PerS, reference.inletFlowM3PerS];
  if (coefficients === null) {
    const ratio = (flow.value * reference.speedRevPerS.value) / (start.value * hold.speedRevPerS.value);
    return combine(1 - ratio, [
      { input: flow, derivative: -ratio / flow.value },
      { input: start, derivative: ratio / start.value },
      { input: hold.speedRevPerS, derivative: ratio / hold.speedRevPerS.value },
      { input: reference.speedRevPerS, derivative: -ratio / reference.speedRevPerS.value },
    ]);
  }
  const there = flowAtUncertainPoint(coefficients, reference);
  const here = flowAtUncertainPoint(coefficients, hold);
  const alikeM3PerS = start.value + here.value - there.value;
  const ratio = flow.value / alikeM3PerS;
  return combine(1 - ratio, [
    { input: flow, derivative: -1 / alikeM3PerS },
    { input: start, derivative: ratio / alikeM3PerS },
    { input: here, derivative: ratio / alikeM3PerS },
    { input: there, derivative: -ratio / alikeM3PerS },
  ]);
}

function printed(pressurePa: Uncertain, sources: SourceTable): string {
  const { value, expandedUncertainty } = formatStated(stateUncertainty(pressurePa, sources), unitOf('kPa(a)'));
  return `${value} ± ${expandedUncertainty} kPa`;
}

/** p = p_j + (x − L_j)/(L_k − L_j) (p_k − p_j) between the last hold that lost less and the next. */
function interpolated(before: SuctionPoint, after: SuctionPoint, share: number, sourceId: string): Uncertain {
  const spanPa = after.suctionPressurePa.value - before.suctionPressurePa.value;
  const rise = after.lost.value - before.lost.value;
  const part = (share - before.lost.value) / rise;
  const crossing = combine(before.suctionPressurePa.value + part * spanPa, [
    { input: before.suctionPressurePa, derivative: 1 - part },
    { input: after.suctionPressurePa, derivative: part },
    { input: before.lost, derivative: (-(1 - part) * spanPa) / rise },
    { input: after.lost, derivative: (-part * spanPa) / rise },
  ]);
  return { value: crossing.value, sensitivities: { ...crossing.sensitivities, [sourceId]: 1 } };
}

/**
 * Flow against inlet vacuum at one speed: where is 1 % and where 5 % of the flow lost? The hold at the smallest vacuum is
 * the reference; the loss of the others is 1 − q/q', q' = q_ref + f(hold) − f(ref) by the slip law, since the pressure
 * difference grows with the vacuum. Between the last hold that lost less and the next the loss is taken as straight; it
 * grows from one to the other but may bend: half the distance either way, rectangular.
 *
 * Such figures exist for new gear pumps ('not less than 16 kPa vacuum', JB/T 7041-2006, most probably the vacuum at 1 %
 * loss, measured wet); they are acceptance figures of makers and not demands on a rebuilt pump.
 *
 * @param holds - of a suction run, in any order; those left out take no part [n holds]
 * @param coefficients - of the slip law from a delivery run of the pump; null: none at hand [m³/rev, m³, m², m³/Pa]
 * @param barometerPa - barometer of the run with its source [Pa]
 * @param sources - every source that the holds and the barometer are sensitive to [-]
 * @returns losses by hold and the pressures at 1 % and 5 % loss, or why there are none [1, Pa]
 *
 * Source: derived here; the two shares: common practice, no source.
 */
export function analyseSuctionRun(
  holds: readonly HoldState[],
  coefficients: Coefficients | null,
  barometerPa: Uncertain,
  sources: SourceTable,
): Outcome<SuctionRun, SuctionRunRefusal> {
  const taken = takenInOrder(holds);
  const refusal = refusalOf(taken);
  const sorted = [...taken].sort((a, b) => b.suctionPressurePa.value - a.suctionPressurePa.value);
  const [reference] = sorted;
  if (refusal !== null) return no(refusal);
  if (reference === undefined) throw new RangeError('holds: none');
  const points = sorted.map(
    (hold): SuctionPoint => ({
      holdNumber: hold.number,
      suctionPressurePa: hold.suctionPressurePa,
      lost: lostAgainst(reference, hold, coefficients),
    }),
  );
  const found = SUCTION_LOSSES.map((share) => lossPressure(points, share, barometerPa, sources));
  return yes({
    referenceHoldNumber: reference.number,
    points,
    losses: found.map(({ loss }) => loss),
    isSlipMadeAlike: coefficients !== null,
    sources: found.flatMap(({ source }) => source ?? []),
  });
}

function lossPressure(
  points: readonly SuctionPoint[],
  share: SuctionLoss,
  barometerPa: Uncertain,
  sources: SourceTable,
): { readonly loss: LossPressure; readonly source: Source | null } {
  const percent = `${(100 * share).toFixed(0)} %`;
  // From the last hold that lost less on: every deeper one lost more.
  const last = points.findLastIndex(({ lost }) => lost.value < share);
  const [before, after, deepest] = [points[last], points[last + 1], points.at(-1)];
  if (before === undefined || deepest === undefined) throw new RangeError('points: the reference is not among them');
  if (after === undefined) {
    const text = `${percent} of the flow is not lost down to ${printed(deepest.suctionPressurePa, sources)} absolute at the inlet.`;
    return {
      loss: { reached: false, lostShare: share, downToPa: deepest.suctionPressurePa, text },
      source: null,
    };
  }
  const source: Source = {
    id: `suction.between.${(100 * share).toFixed(0)}`,
    label: `course of the loss between holds ${before.holdNumber} and ${after.holdNumber}`,
    kind: 'random',
    standardUncertainty: (before.suctionPressurePa.value - after.suctionPressurePa.value) / 2 / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
    pooledAs: null,
  };
  const suctionPressurePa = interpolated(before, after, share, source.id);
  const vacuumPa = combine(barometerPa.value - suctionPressurePa.value, [
    { input: barometerPa, derivative: 1 },
    { input: suctionPressurePa, derivative: -1 },
  ]);
  const table = { ...sources, [source.id]: source };
  const text = `${percent} of the flow is lost at ${printed(suctionPressurePa, table)} absolute at the inlet, a vacuum of ${printed(vacuumPa, table)}.`;
  return { loss: { reached: true, lostShare: share, suctionPressurePa, vacuumPa, text }, source };
}
