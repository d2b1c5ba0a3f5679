import { mean } from 'simple-statistics';
import { weightedLeastSquares } from '../delivery/leastSquares.ts';
import { certainPoint, lawRegressors } from '../delivery/slipLaw.ts';
import { printFixed } from '../formatStated.ts';
import { LAW_TERMS, type LawTerm } from '../result.ts';
import type { HoldState, LeftOut } from '../steady/holdState.ts';
import { studentTCdf } from '../uncertainty/studentT.ts';
import { type CheckRead, FALSE_ALARM_PROBABILITY } from './checkRead.ts';
import { bySpeed, inBar, isSamePressure, takenInOrder } from './setPoints.ts';

export type ReliefBreakNumbers = {
  /** The break that fits best lies between these pressure differences, neighbouring levels of the run [Pa]. */
  readonly between: { readonly lowerPa: number; readonly upperPa: number };
  /** Flow lost beyond the break at the highest pressure, over what slip takes, a share of the mean flow there [1]. */
  readonly lostShare: number;
  readonly lostShareStandardUncertainty: number;
  readonly degreesOfFreedom: number;
  /** Probability of so steep a break by chance, the search for its place counted in [1]. */
  readonly chanceProbability: number;
  /** Holds beyond the break; none without a sign. */
  readonly holdNumbersBeyond: readonly number[];
  /** What to put down as the reason that they leave the fit; null without a sign. */
  readonly leftOut: LeftOut | null;
};

/** A smaller loss is not told from the law's own curvature: a house limit [1]. */
const SMALLEST_LOSS = 0.01;

/** Levels below the break that tell slip, and levels in all. */
const LEVELS_BELOW = 2;
const LEAST_LEVELS = 4;

/** Holds beyond the number of coefficients, the break's own among them. */
const SPARE_HOLDS = 2;

type Break = {
  readonly lowerPa: number;
  readonly upperPa: number;
  /** Steepness beyond slip [m³/(s Pa)]. */
  readonly steepness: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  readonly residualSumOfSquares: number;
};

/** Pressure levels of the run, lowest first [Pa]. */
function pressureLevels(taken: readonly HoldState[]): readonly number[] {
  const groups: number[][] = [];
  const sorted = taken.map((hold) => hold.differentialPressurePa.value).sort((a, b) => a - b);
  for (const pressurePa of sorted) {
    const open = groups.at(-1);
    if (open?.[0] !== undefined && isSamePressure(open[0], pressurePa)) open.push(pressurePa);
    else groups.push([pressurePa]);
  }
  return groups.map((group) => mean(group));
}

/** The law and a break; slip terms that come out negative are dropped, the most negative first, and never the break. */
function fitBreak(
  taken: readonly HoldState[],
  allTerms: readonly LawTerm[],
  lowerPa: number,
  upperPa: number,
): Break | null {
  let terms = allTerms;
  for (;;) {
    const present = terms;
    const design = taken.map((hold) => {
      const point = certainPoint(hold);
      const regressors = lawRegressors(point);
      return [-Math.max(0, point.differentialPressurePa - lowerPa), ...present.map((term) => regressors[term])];
    });
    const fit = weightedLeastSquares(
      design,
      taken.map((hold) => hold.inletFlowM3PerS.value),
      taken.map(() => 1),
    );
    if (!fit.ok) return null;
    const { coefficients, covarianceUnscaled, weightedResidualSumOfSquares, degreesOfFreedom } = fit.value;
    // Each slip term in its own standard uncertainty, so that they can be compared.
    const inOwnUncertainty = present.map(
      (_, index) => (coefficients[index + 1] ?? 0) / Math.sqrt(covarianceUnscaled[index + 1]?.[index + 1] ?? 1),
    );
    const most = Math.min(0, ...inOwnUncertainty.slice(1));
    if (most < 0) {
      terms = present.filter((_, index) => index === 0 || inOwnUncertainty[index] !== most);
      continue;
    }
    return {
      lowerPa,
      upperPa,
      steepness: coefficients[0] ?? 0,
      standardUncertainty: Math.sqrt(
        ((covarianceUnscaled[0]?.[0] ?? 0) * weightedResidualSumOfSquares) / degreesOfFreedom,
      ),
      degreesOfFreedom,
      residualSumOfSquares: weightedResidualSumOfSquares,
    };
  }
}

/**
 * Did a relief valve open? Slip lets flow fall with pressure by the slip law; a valve that cracks at p_c makes it fall
 * steeper from there on, at every speed from the same pressure. The law with one more term, −k max(0, Δp − p_c), is fitted
 * to all holds for each place between two levels, and k of the best place is held against its own standard uncertainty
 * from the residuals, with Student's t and as many looks as there were places.
 *
 * @param holds - of one run; those left out already take no part [n holds]
 * @returns the place, the loss and the holds beyond it, or what is missing to tell [Pa, 1]
 *
 * Source: segmented regression with a break at a grid of places, derived here from the slip law; t test of a coefficient as
 * in any linear least squares; Bonferroni's inequality. Least loss that counts, 1 %: house limit.
 */
export function reliefBreak(
  holds: readonly HoldState[],
): CheckRead<ReliefBreakNumbers, 'TOO_FEW_PRESSURES' | 'TOO_FEW_HOLDS'> {
  const taken = takenInOrder(holds);
  const levels = pressureLevels(taken);
  const [lowest = 0, highest = 0] = [levels[0], levels.at(-1)];
  if (levels.length < LEAST_LEVELS) {
    return {
      read: 'cannot tell',
      code: 'TOO_FEW_PRESSURES',
      text: `Whether a relief valve opened cannot be told from ${levels.length} pressures: hold ${LEAST_LEVELS} or more between the lowest and the highest.`,
    };
  }
  const terms = LAW_TERMS.filter((term) => term !== 'speedPressureSlipM3PerPa' || bySpeed(taken).length > 1);
  const needed = terms.length + 1 + SPARE_HOLDS;
  const breaks =
    taken.length < needed
      ? []
      : levels
          .slice(LEVELS_BELOW - 1, -1)
          .flatMap((lowerPa, index) => fitBreak(taken, terms, lowerPa, levels[index + LEVELS_BELOW] ?? lowerPa) ?? []);
  const best = breaks.reduce<Break | null>(
    (found, next) => (found === null || next.residualSumOfSquares < found.residualSumOfSquares ? next : found),
    null,
  );
  if (best === null) {
    return {
      read: 'cannot tell',
      code: 'TOO_FEW_HOLDS',
      text: `Whether a relief valve opened cannot be told from ${taken.length} holds: ${needed} or more are needed to tell its opening from slip. Repeat the pressures at another speed.`,
    };
  }
  const atHighest = taken.filter((hold) => isSamePressure(hold.differentialPressurePa.value, highest));
  const perSteepness = (highest - best.lowerPa) / mean(atHighest.map((hold) => hold.inletFlowM3PerS.value));
  const lostShare = best.steepness * perSteepness;
  const t = best.standardUncertainty > 0 ? best.steepness / best.standardUncertainty : Number.MAX_VALUE;
  const byChance = best.steepness > 0 ? 1 - studentTCdf(t, best.degreesOfFreedom) : 1;
  const chanceProbability = Math.min(1, breaks.length * byChance);
  const isOpen = chanceProbability < FALSE_ALARM_PROBABILITY && lostShare > SMALLEST_LOSS;
  const beyondPa = (best.lowerPa + best.upperPa) / 2;
  const holdNumbersBeyond = isOpen
    ? taken.filter((hold) => hold.differentialPressurePa.value > beyondPa).map(({ number }) => number)
    : [];
  const between = `${inBar(best.lowerPa)} and ${inBar(best.upperPa)}`;
  const percent = printFixed(100 * lostShare, 1);
  const numbers: ReliefBreakNumbers = {
    between: { lowerPa: best.lowerPa, upperPa: best.upperPa },
    lostShare,
    lostShareStandardUncertainty: best.standardUncertainty * perSteepness,
    degreesOfFreedom: best.degreesOfFreedom,
    chanceProbability,
    holdNumbersBeyond,
    leftOut: isOpen ? { cause: 'relief', reason: `a relief valve opened between ${between}` } : null,
  };
  return isOpen
    ? {
        read: 'sign',
        numbers,
        text: `A relief valve opens between ${between}: at ${inBar(highest)} flow is ${percent} % lower than slip explains. Holds ${holdNumbersBeyond.join(', ')} leave the fit. A relief run tells where it cracks and reseats.`,
      }
    : {
        read: 'no sign',
        numbers,
        text: `Flow falls with pressure as slip does, without a break, from ${inBar(lowest)} to ${inBar(highest)}.`,
      };
}
