import { EVENT_WORDS, eventLines } from '../../../../analysis/dryLift/eventWords.ts';
import { isLimitInSight } from '../../../../analysis/dryLift/limitInSight.ts';
import { liftOfPressure } from '../../../../analysis/dryLift/model/liftOfPressure.ts';
import { printFixed } from '../../../../analysis/formatStated.ts';
import type { DryLiftResult } from '../../../../analysis/result.ts';
import { readingFrom, unitOf } from '../../../../analysis/units.ts';
import type { RunReadings } from '../../../api.ts';
import type { ChartRule } from '../../plots/Chart.tsx';
import type { Point } from '../../plots/shapes.ts';

const BAR = unitOf('bar(a)');

/** Of a long run only the start is drawn here; all of it stands in the record [s]. */
const BEFORE_START_S = 2;
const AFTER_PRIMING_S = 2;
const AFTER_BLANKED_S = 0.5;

export function bar(absolutePa: number): number {
  return readingFrom(absolutePa, BAR, 0);
}

/** What is drawn of a run. */
export type DrawnStart = {
  readonly rules: readonly ChartRule[];
  readonly span: readonly [fromS: number, toS: number];
  readonly suctionPa: readonly Point[];
};

function eventsOf({ priming, events, estimate }: DryLiftResult): {
  readonly rules: readonly ChartRule[];
  readonly endS: number | null;
} {
  if (events === null) {
    const starts = estimate.ok ? estimate.value.starts : [];
    const rules = starts.map(({ motorStartS }, index) => ({
      at: motorStartS,
      words: starts.length === 1 ? 'motor starts' : `start ${index + 1}`,
    }));
    const untilS = starts.map(({ fittedUntilS }) => fittedUntilS + AFTER_BLANKED_S);
    return { rules, endS: untilS.length === 0 ? null : Math.max(...untilS) };
  }
  const rules = eventLines(events).flatMap(({ name, event }) =>
    event.seen ? [{ at: event.atS.value, words: EVENT_WORDS[name] }] : [],
  );
  if (!priming.ok) return { rules, endS: null };
  const { value } = priming;
  return {
    rules,
    endS: value.primed ? value.sustainedDeliveryS + AFTER_PRIMING_S : value.motorStartS + value.watchedForS,
  };
}

/**
 * Events and suction readings of a dry start as they are drawn; null where the bench has no suction channel.
 *
 * @param result - of a dry-lift or blanked run [-]
 * @param readings - as they travel to the page [-]
 * @returns events, span and points [s, Pa]
 */
export function drawnStart(result: DryLiftResult, readings: RunReadings): DrawnStart | null {
  const suction = readings.channels.suctionPressure;
  if (suction === undefined) return null;
  const { rules, endS } = eventsOf(result);
  const lastS = readings.elapsedS.at(-1) ?? 1;
  const fromS = Math.max(0, (rules[0]?.at ?? 0) - BEFORE_START_S);
  const toS = Math.min(endS ?? lastS, lastS);
  const suctionPa = readings.elapsedS.flatMap((atS, row): Point[] => {
    const pressurePa = suction[row] ?? null;
    return pressurePa === null || atS < fromS || atS > toS ? [] : [[atS, pressurePa]];
  });
  return { rules, span: [fromS, toS], suctionPa };
}

/** The limit as it stands in a drawing: a rule where it is in sight, else words. */
export type DrawnLimit =
  | { readonly isInSight: true; readonly blankOffPa: number; readonly limitM: number }
  | { readonly isInSight: false; readonly words: string };

/** Where the limit lies against what was drawn; null: there is none. */
export function drawnLimit({ estimate, barometerPa }: DryLiftResult, { suctionPa }: DrawnStart): DrawnLimit | null {
  const limit = estimate.ok ? estimate.value.limits[0] : undefined;
  if (limit === undefined) return null;
  const blankOffPa = limit.blankOffPressurePa.value;
  const lowestPa = suctionPa.reduce((least, [, pressurePa]) => Math.min(least, pressurePa), barometerPa);
  if (isLimitInSight(blankOffPa, barometerPa, lowestPa)) {
    return { isInSight: true, blankOffPa, limitM: limit.limitM.value };
  }
  return {
    isInSight: false,
    words: `The estimated limit, ${printFixed(bar(blankOffPa), 2)} bar(a) or ${printFixed(limit.limitM.value, 1)} m, lies beyond this drawing.`,
  };
}

/** What a suction pressure carries at rest [m]. */
export function carriedM(pressurePa: number, { barometerPa, oilDensityKgPerM3 }: DryLiftResult): number {
  return liftOfPressure(barometerPa, pressurePa, oilDensityKgPerM3);
}
