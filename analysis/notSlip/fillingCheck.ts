import { mean, sum } from 'simple-statistics';
import { printFixed, printRpm } from '../formatStated.ts';
import type { HoldState, LeftOut } from '../steady/holdState.ts';
import { combine, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import { type CheckRead, isBeyondChance } from './checkRead.ts';
import { bySpeed, inBar, takenInOrder } from './setPoints.ts';
import { statedShare } from './statedShare.ts';

export type FillingNumbers = {
  /** Flow per turn at each speed of the lowest pressure, slowest first [rev/s, m³/rev]. */
  readonly levels: readonly { readonly speedRevPerS: number; readonly flowPerTurnM3PerRev: Uncertain }[];
  /** Largest fall of flow per turn from a speed to a faster one, a share [1]; negative where it only rises. */
  readonly largestFall: Uncertain;
  /** Between which speeds the pump ceases to fill; null: it fills at all of them. */
  readonly knee: null | { readonly lastFilledRevPerS: number; readonly firstUnfilledRevPerS: number };
  /** Holds beyond the knee at any pressure: they say nothing of slip. */
  readonly holdNumbersBeyond: readonly number[];
  /** What to put down as the reason that they leave the fit; null where none does. */
  readonly leftOut: LeftOut | null;
};

/** A smaller fall is not worth a hold: a house limit [1]. */
const SMALLEST_FALL = 0.01;

/** Of the span of pressures, and at the least: holds this near the lowest pressure belong to it [1, Pa]. */
const LEVEL_SHARE = 0.05;
const LEVEL_PA = 2e4;

type Level = { readonly speedRevPerS: number; readonly flowPerTurnM3PerRev: Uncertain };

function slipVariable(hold: HoldState): number {
  return hold.differentialPressurePa.value / hold.dynamicViscosityPaS.value;
}

/** −dq/d(Δp/µ) within speeds, by one straight line through all of them; zero where it cannot be had [m³]. */
function slipPerSlipVariableM3(groups: readonly (readonly HoldState[])[]): number {
  const pairs = groups.flatMap((group) => {
    const meanVariable = mean(group.map(slipVariable));
    const meanFlow = mean(group.map((hold) => hold.inletFlowM3PerS.value));
    return group.map((hold) => ({
      variable: slipVariable(hold) - meanVariable,
      flowM3PerS: hold.inletFlowM3PerS.value - meanFlow,
    }));
  });
  const square = sum(pairs.map(({ variable }) => variable ** 2));
  const product = sum(pairs.map(({ variable, flowM3PerS }) => variable * flowM3PerS));
  return square > 0 ? Math.max(0, -product / square) : 0;
}

/** Flow per turn with the slip that belongs to Δp/µ = `referredTo` [m³/rev]. */
function referredFlowPerTurn(hold: HoldState, slipM3: number, referredTo: number): Uncertain {
  const { inletFlowM3PerS: flow, speedRevPerS: speed } = hold;
  const variable = slipVariable(hold);
  const perTurn = (flow.value + slipM3 * (variable - referredTo)) / speed.value;
  const perVariable = slipM3 / speed.value;
  return combine(perTurn, [
    { input: flow, derivative: 1 / speed.value },
    { input: speed, derivative: -perTurn / speed.value },
    { input: hold.differentialPressurePa, derivative: perVariable / hold.dynamicViscosityPaS.value },
    { input: hold.dynamicViscosityPaS, derivative: (-perVariable * variable) / hold.dynamicViscosityPaS.value },
  ]);
}

function meanOfUncertain(values: readonly Uncertain[]): Uncertain {
  return combine(
    mean(values.map(({ value }) => value)),
    values.map((input) => ({ input, derivative: 1 / values.length })),
  );
}

/** 1 − after/before. */
function fallBetween(before: Level, after: Level): Uncertain {
  const [from, to] = [before.flowPerTurnM3PerRev, after.flowPerTurnM3PerRev];
  return combine(1 - to.value / from.value, [
    { input: to, derivative: -1 / from.value },
    { input: from, derivative: to.value / from.value ** 2 },
  ]);
}

/**
 * Does the pump fill? At the lowest pressure q/n is held against n. Slip makes q/n = V_i − slip/n rise with n, so that a
 * fall is never slip: the pump no longer fills, and what is missing is at least the fall. Each speed is held against every
 * slower one; small differences of Δp/µ between the holds are taken out by the run's own slope of flow against Δp/µ.
 *
 * @param holds - of one run; those left out already take no part [n holds]
 * @param sources - every source that the holds are sensitive to [-]
 * @returns levels, largest fall, knee and the holds beyond it, or what is missing to tell [m³/rev, 1, rev/s]
 *
 * Source: derived here from the slip law; the least fall that counts, 1 %, is a house limit.
 */
export function fillingCheck(
  holds: readonly HoldState[],
  sources: SourceTable,
): CheckRead<FillingNumbers, 'SPEED_NOT_VARIED'> {
  const taken = takenInOrder(holds);
  const pressures = taken.map((hold) => hold.differentialPressurePa.value);
  const lowestPa = Math.min(...pressures);
  const reachPa = Math.max(LEVEL_PA, LEVEL_SHARE * (Math.max(...pressures) - lowestPa));
  const lowest = taken.filter((hold) => hold.differentialPressurePa.value <= lowestPa + reachPa);
  const groups = bySpeed(lowest);
  if (groups.length < 2) {
    const where = taken.length === 0 ? 'a low pressure' : `the lowest pressure, ${inBar(lowestPa)},`;
    return {
      read: 'cannot tell',
      code: 'SPEED_NOT_VARIED',
      text: `Whether the pump fills cannot be told: ${where} was not held at two speeds. Repeat it at two more, the fastest of the run among them.`,
    };
  }
  const slipM3 = slipPerSlipVariableM3(bySpeed(taken));
  const referredTo = mean(lowest.map(slipVariable));
  const levels = groups.map(
    (group): Level => ({
      speedRevPerS: mean(group.map((hold) => hold.speedRevPerS.value)),
      flowPerTurnM3PerRev: meanOfUncertain(group.map((hold) => referredFlowPerTurn(hold, slipM3, referredTo))),
    }),
  );
  const falls = levels.flatMap((after, index) =>
    levels.slice(0, index).map((before) => ({ index, fall: fallBetween(before, after) })),
  );
  const largestFall = falls.reduce((largest, { fall }) => (fall.value > largest.value ? fall : largest), {
    value: Number.NEGATIVE_INFINITY,
    sensitivities: {},
  });
  const first = falls.find(({ fall }) => fall.value > SMALLEST_FALL && isBeyondChance(fall, sources, falls.length));
  const unfilled = first === undefined ? undefined : levels[first.index];
  const filled = first === undefined ? undefined : levels[first.index - 1];
  if (first === undefined || unfilled === undefined || filled === undefined) {
    const numbers = { levels, largestFall, knee: null, holdNumbersBeyond: [], leftOut: null };
    const fastest = printRpm(levels.at(-1)?.speedRevPerS ?? 0);
    return {
      read: 'no sign',
      numbers,
      text: `The pump fills up to ${fastest} r/min: at the lowest pressure flow per turn does not fall with speed.`,
    };
  }
  const middleRevPerS = (filled.speedRevPerS + unfilled.speedRevPerS) / 2;
  const holdNumbersBeyond = taken.filter((hold) => hold.speedRevPerS.value > middleRevPerS).map(({ number }) => number);
  const [below, above] = [printRpm(filled.speedRevPerS), printRpm(unfilled.speedRevPerS)];
  const percent = printFixed(100 * first.fall.value, 1);
  return {
    read: 'sign',
    numbers: {
      levels,
      largestFall,
      knee: { lastFilledRevPerS: filled.speedRevPerS, firstUnfilledRevPerS: unfilled.speedRevPerS },
      holdNumbersBeyond,
      leftOut: { cause: 'filling', reason: `beyond ${below} r/min the pump does not fill: ${percent} % less a turn` },
    },
    text: `Between ${below} and ${above} r/min the pump ceases to fill: at the lowest pressure flow per turn falls by ${statedShare(largestFall, sources)}, which slip never does. Holds ${holdNumbersBeyond.join(', ')} leave the fit. Look for a tight suction line or strainer, cold oil, a low level or air.`,
  };
}
