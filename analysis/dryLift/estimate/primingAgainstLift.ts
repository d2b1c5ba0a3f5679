import type { DryPumpFit } from '../fit/dryPumpFit.ts';
import { intervalOf } from '../fit/functionOfFit.ts';
import { oilAt, pipeAt } from '../fit/predictStart.ts';
import { simulateDryStart } from '../model/simulateDryStart.ts';
import { pipeTable, type SuctionPipe } from '../model/suctionPipe.ts';
import { deliveryRate, type TimeInterval, timeInterval, WATCHED_S } from './timeInterval.ts';

export type PrimingAtLift = { readonly liftM: number; readonly timeS: TimeInterval };

/** Teeth and chambers hold about what the pump takes in a turn: common practice, no source [rev]. */
export const TURNS_TO_FILL_PUMP = 1;

/** A pipe that rises higher or less high: its rises in proportion, its risers longer or shorter by as much. */
function liftedBy(pipe: SuctionPipe, share: number): SuctionPipe {
  return {
    ...pipe,
    segments: pipe.segments.map((segment) => {
      const riseM = share * segment.riseM;
      const lengthM = Math.max(Math.abs(riseM), segment.lengthM + Math.abs(riseM) - Math.abs(segment.riseM));
      return { ...segment, riseM, lengthM };
    }),
  };
}

/**
 * Priming time against lift: motor start to delivery, with the bench's own pipe made higher or lower, at the speed
 * course of the first start.
 *
 * @param fit - of a dry pump [-]
 * @param liftsM - lifts, each above zero [m]
 * @returns for each lift the time with its band of 95 %; null where it never comes [m, s]
 * @throws RangeError if a lift is not above zero
 *
 * Source: model of ../model; band as intervalOf, on the rate 1/t.
 */
export function primingAgainstLift(fit: DryPumpFit, liftsM: readonly number[]): readonly PrimingAtLift[] {
  const start = fit.problem.starts.find(({ kind }) => kind === 'lift') ?? fit.problem.starts[0];
  if (start === undefined) throw new RangeError('fit: it has no starts');
  const { space } = fit.search;
  return liftsM.map((liftM) => {
    if (!(Number.isFinite(liftM) && liftM > 0)) throw new RangeError(`liftsM: ${liftM} is not a number above zero`);
    const deliveryAt = (parameters: readonly number[]): ReturnType<typeof deliveryRate> => {
      const inputAt = (input: Parameters<typeof space.inputAt>[0]): number => space.inputAt(input, parameters);
      const running = space.running(start.surroundings, start.speedRevPerS, parameters);
      const pipe = pipeAt(start.surroundings.pipe, inputAt);
      const { oilAtInletS, oilAtOutletS } = simulateDryStart(
        {
          ...running,
          pipe: liftedBy(pipe, liftM / pipeTable(pipe).staticLiftM),
          deadVolumeM3: space.deadVolumeM3(parameters),
          oil: oilAt(start.surroundings, inputAt),
          outletVolumeM3: TURNS_TO_FILL_PUMP * running.pump.capacityM3PerRev,
          deliveryLineVolumeM3: 0,
        },
        start.motorStartS + WATCHED_S,
      );
      const sinceStartS = (atS: number | null): number | null => (atS === null ? null : atS - start.motorStartS);
      return deliveryRate({ oilAtInletS: sinceStartS(oilAtInletS), oilAtOutletS: sinceStartS(oilAtOutletS) });
    };
    const otherVariance = deliveryAt(fit.search.parameters).variance;
    const interval = intervalOf(fit, (parameters) => deliveryAt(parameters).ratePerS, { otherVariance, isDear: true });
    return { liftM, timeS: timeInterval(interval) };
  });
}
