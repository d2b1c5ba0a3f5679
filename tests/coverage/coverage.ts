import { median } from 'simple-statistics';
import { FIGURES, type Figure, type FigureName, type Measured } from './figures.ts';

/** How often the intervals of many benches held the truth. */
export type Coverage = {
  readonly benchCount: number;
  readonly refusedCodes: readonly string[];
  readonly heldCounts: Readonly<Record<FigureName, number>>;
  /** Median interval over the oracle's [1]. */
  readonly widthRatios: Readonly<Record<FigureName, number>>;
};

function holds({ value, halfWidth, truth }: Figure): boolean {
  return Math.abs(value - truth) <= halfWidth;
}

function forEachFigure(value: (name: FigureName) => number): Readonly<Record<FigureName, number>> {
  return {
    capacity: value('capacity'),
    slip: value('slip'),
    efficiency: value('efficiency'),
    flow: value('flow'),
  };
}

/** Counts over benches; a refused one holds nothing and is no miss either. */
export function coverageOf(benches: readonly Measured[]): Coverage {
  const judged = benches.flatMap((bench) => (bench.isRefused ? [] : [bench]));
  return {
    benchCount: benches.length,
    refusedCodes: benches.flatMap((bench) => (bench.isRefused ? [bench.code] : [])),
    heldCounts: forEachFigure((name) => judged.filter(({ figures }) => holds(figures[name])).length),
    widthRatios: forEachFigure((name) =>
      judged.length === 0
        ? Number.POSITIVE_INFINITY
        : median(judged.map(({ figures }) => figures[name].halfWidth)) /
          median(judged.map(({ oracleHalfWidths }) => oracleHalfWidths[name])),
    ),
  };
}

/** An interval said to be one of 95 % must hold this share of truths in a large study [1]. */
const HELD_SHARE = { least: 0.9, most: 0.99 } as const;
const MOST_REFUSED_SHARE = 0.1;
const MOST_WIDTH_RATIO = 1.5;
const PROMISED_SHARE = 0.95;
/** A small study is judged by the binomial region of the promised share: what is rarer than this is no chance [1]. */
const RARE = 1e-3;
/** From so many benches on the shares themselves are judged. */
const LARGE_STUDY = 100;

/** P(K ≤ k) of n draws with probability p [1]. */
export function binomialBelow(k: number, n: number, p: number): number {
  let term = (1 - p) ** n;
  let sum = 0;
  for (let count = 0; count <= k; count += 1) {
    sum += term;
    term *= ((n - count) / (count + 1)) * (p / (1 - p));
  }
  return sum;
}

function isHeldOften(held: number, judged: number): boolean {
  if (judged >= LARGE_STUDY) return held >= HELD_SHARE.least * judged && held <= HELD_SHARE.most * judged;
  return judged > 0 && binomialBelow(held, judged, PROMISED_SHARE) >= RARE;
}

/** What of a study does not keep what the intervals promise; empty: all is well. */
export function brokenPromises(coverage: Coverage): readonly string[] {
  const { benchCount, refusedCodes, heldCounts, widthRatios } = coverage;
  const judged = benchCount - refusedCodes.length;
  const broken: string[] = FIGURES.filter((name) => !isHeldOften(heldCounts[name], judged));
  const refusedIsRare = 1 - binomialBelow(refusedCodes.length - 1, benchCount, MOST_REFUSED_SHARE) < RARE;
  const isRefusedTooOften =
    benchCount >= LARGE_STUDY ? refusedCodes.length > MOST_REFUSED_SHARE * benchCount : refusedIsRare;
  if (isRefusedTooOften) broken.push('refused');
  for (const name of FIGURES) {
    if (!(widthRatios[name] <= MOST_WIDTH_RATIO)) broken.push(`${name} width`);
  }
  return broken;
}
