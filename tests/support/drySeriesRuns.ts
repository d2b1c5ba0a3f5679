import type { CertifiedRun } from '../../analysis/certificate/certifiedRun.ts';
import { judgeDryLiftDemand } from '../../analysis/judgement/judgeDryLift.ts';
import type { Demand } from '../../analysis/records/dutyRecord.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import { feedPump } from './certificateRecords.ts';
import { dryLiftRun, stated } from './certificateRuns.ts';

/** Invented dry start of a series: one every so many minutes, each recorded for one minute. */
export type InventedStart = {
  /** Null: no oil came within 30 s. */
  readonly timeS: number | null;
  readonly wetness?: RunRecord['setUp']['wetness'];
  readonly speedRevPerS?: number;
  readonly mounting?: number;
};

const DAY = Date.UTC(2026, 5, 11, 6);
const MINUTE_MS = 60_000;

/** A start as a certificate takes it, with its verdict on each demand of the pump. */
function startOf(start: InventedStart, index: number, everyMin: number, demands: readonly Demand[]): CertifiedRun {
  const { timeS, wetness = 'W2', speedRevPerS = 9.98, mounting = 1 } = start;
  const begunMs = DAY + index * everyMin * MINUTE_MS;
  const startedAtUtc = new Date(begunMs).toISOString();
  const { run, closing, result } = dryLiftRun({
    id: `20260611-drylift-${index + 1}`,
    startedAtUtc,
    pump: feedPump(demands),
    verdicts: [],
  });
  if (result.dryLift === null) throw new Error('fixture');
  const dryLift = {
    ...result.dryLift,
    wetness,
    speedRevPerS,
    priming: {
      ok: true as const,
      value:
        timeS === null
          ? ({ primed: false, motorStartS: 4, watchedForS: 30 } as const)
          : ({
              primed: true,
              primingTimeS: stated(timeS, 0.06),
              motorStartS: 4,
              oilAtInletS: null,
              sustainedDeliveryS: 4 + timeS,
            } as const),
    },
  };
  const evidence = { ...dryLift, priming: dryLift.priming.value };
  return {
    run: { ...run, mounting, setUp: { ...run.setUp, wetness } },
    closing: { ...closing, closedAtUtc: new Date(begunMs + MINUTE_MS).toISOString() },
    result: { ...result, dryLift, verdicts: demands.map((demand) => judgeDryLiftDemand(demand, evidence)) },
  };
}

/** Dry starts one after the other. */
export function seriesRuns(
  starts: readonly InventedStart[],
  { everyMin = 30, demands = [] }: { readonly everyMin?: number; readonly demands?: readonly Demand[] } = {},
): readonly CertifiedRun[] {
  return starts.map((start, index) => startOf(start, index, everyMin, demands));
}
