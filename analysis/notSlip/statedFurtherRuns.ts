import { averagedHolds, barometerOf } from '../delivery/analyseDelivery.ts';
import { refusalOf } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { HoldExclusion, RunRecord } from '../records/runRecord.ts';
import type { ReliefResult, SuctionResult } from '../result.ts';
import { applyExclusions } from '../steady/applyExclusions.ts';
import { type Source, sourceTable, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { analyseReliefRun, type ReliefPressure } from './reliefRun.ts';
import { analyseSuctionRun } from './suctionRun.ts';

type State = (value: Uncertain) => Stated;

function stateWith(sources: readonly Source[]): State {
  const table = sourceTable(sources);
  return (value) => stateUncertainty(value, table);
}

function statedPressure(pressure: ReliefPressure, state: State) {
  if (!pressure.found) return pressure;
  return { found: true, differentialPressurePa: state(pressure.differentialPressurePa) } as const;
}

/**
 * A relief run in numbers that can be printed.
 *
 * @param run - run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param base - sources of channels and barometer [-]
 * @returns pressures with their expanded uncertainty, or why there are none; and the sources that the run added [Pa]
 */
export function reliefResult(
  run: RunRecord,
  readings: Readings,
  base: readonly Source[],
): { readonly relief: ReliefResult; readonly sources: readonly Source[] } {
  const found = analyseReliefRun(readings, run.bench, run.setUp.barometerPa.value, sourceTable(base));
  if (!found.ok) return { relief: refusalOf(found.reason), sources: [] };
  const { sources, cracking, fullFlow, reseat, hysteresisPa, speedRevPerS, highestPressurePa, text } = found.value;
  const state = stateWith([...base, ...sources]);
  return {
    relief: {
      ok: true,
      value: {
        speedRevPerS,
        highestPressurePa,
        cracking: statedPressure(cracking, state),
        fullFlow: statedPressure(fullFlow, state),
        reseat: statedPressure(reseat, state),
        hysteresisPa: hysteresisPa === null ? null : state(hysteresisPa),
        text,
      },
    },
    sources,
  };
}

/**
 * A suction run in numbers that can be printed; no slip law is at hand in it, so that the little more slip at a deeper
 * vacuum counts as lost.
 *
 * @param run - run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param exclusions - what a person took out [-]
 * @param base - sources of channels, oil and barometer [-]
 * @returns losses and the pressures at 1 % and 5 %, or why there are none; and the sources that the run added [Pa, 1]
 */
export function suctionResult(
  run: RunRecord,
  readings: Readings,
  exclusions: readonly HoldExclusion[],
  base: readonly Source[],
): { readonly suction: SuctionResult; readonly sources: readonly Source[] } {
  const holds = applyExclusions(averagedHolds(run, readings), exclusions);
  const holdSources = holds.flatMap(({ sources }) => sources);
  const barometer = barometerOf(run);
  const found = analyseSuctionRun(holds, null, barometer, sourceTable([...base, ...holdSources]));
  if (!found.ok) return { suction: refusalOf(found.reason), sources: holdSources };
  const { referenceHoldNumber, points, losses } = found.value;
  const sources = [...holdSources, ...found.value.sources];
  const state = stateWith([...base, ...sources]);
  const byNumber = new Map(holds.map((hold) => [hold.number, hold]));
  return {
    suction: {
      ok: true,
      value: {
        referenceHoldNumber,
        points: points.flatMap(({ holdNumber, suctionPressurePa, lost }) => {
          const hold = byNumber.get(holdNumber);
          return hold === undefined
            ? []
            : [
                {
                  holdNumber,
                  suctionPressurePa: state(suctionPressurePa),
                  flowM3PerS: state(hold.inletFlowM3PerS),
                  lost: state(lost),
                },
              ];
        }),
        losses: losses.map((loss) =>
          loss.reached
            ? { ...loss, suctionPressurePa: state(loss.suctionPressurePa), vacuumPa: state(loss.vacuumPa) }
            : { ...loss, downToPa: state(loss.downToPa) },
        ),
      },
    },
    sources,
  };
}
