import { channelValue } from '../../calibration/channelSources.ts';
import { oilStateAt } from '../../oil/oilStateAt.ts';
import type { Readings } from '../../readings.ts';
import type { RunRecord } from '../../records/runRecord.ts';
import { combine, type Source, type Uncertain } from '../../uncertainty/source.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { type Course, channelCourse, courseBetween, statedLagS, valueAt } from '../events/course.ts';
import { runsUntilS } from '../events/deliveryEvents.ts';
import type { StartEvents } from '../events/findStartEvents.ts';
import { pipeTop } from '../events/pipeTop.ts';
import { tankOilTemperature } from '../tankOil.ts';
import { causeOf } from './causeOf.ts';
import type { Cause } from './causes.ts';
import { freeColumn } from './freeColumn.ts';
import { leakShape } from './leakShape.ts';
import { type PipeHold, readPipeHold } from './pipeHold.ts';
import { startSigns } from './startSigns.ts';

/** What a start that did not prime says. */
export type NoPrimingDiagnosis = {
  /** From motor start until the motor ran down, or the record ended [s]. */
  readonly timedOutAfterS: number;
  /** Suction that it came to, below what the channel showed at rest; null: no suction channel [Pa]. */
  readonly ultimateSuctionPa: Uncertain | null;
  /** Column of this oil that it carries [m]. */
  readonly liftCarriedM: Uncertain | null;
  readonly cause: Cause;
  /** Null: the pipe was not held by itself. */
  readonly hold: PipeHold | null;
  /** Beyond those of channels and oil. */
  readonly sources: readonly Source[];
};

/** The motor slows down below this share of its speed [1]. */
const SLOWS_SHARE = 0.97;

const END_SOURCE_ID = 'diagnosis.ultimateSuction';

/**
 * Why a pump did not prime: the suction that it came to and the lift it would carry, and the most likely cause with the sign
 * it was read from.
 *
 * @param run - the run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param events - of the start; no delivery sustained [s]
 * @param sweptVolumeM3PerRev - V_g [m³/rev]
 * @returns the diagnosis [s, Pa, m]
 */
export function diagnoseStart(
  run: RunRecord,
  readings: Readings,
  events: StartEvents,
  sweptVolumeM3PerRev: number,
): NoPrimingDiagnosis {
  const { setUp, bench } = run;
  const signs = startSigns(readings, events, sweptVolumeM3PerRev);
  const tank = tankOilTemperature(run, readings);
  const state = oilStateAt(run.oil, tank.temperatureK);
  const oil = {
    densityKgPerM3: state.densityKgPerM3.value,
    dynamicViscosityPaS: state.dynamicViscosityPaS.value,
  };
  const top = pipeTop(setUp);
  const motorStartS = events.motorStart.atS.value;
  const speed = channelCourse(readings, 'speed');
  const { drawn, endDrawnPa, suctionRestPa } = signs;
  const sweptAt = (timesS: readonly number[]): readonly number[] =>
    timesS.map((timeS) => sweptVolumeM3PerRev * valueAt(speed, timeS + motorStartS));
  const pipeHold =
    !setUp.endsWithPipeHold || suctionRestPa === null
      ? null
      : readPipeHold(channelCourse(readings, 'suctionPressure'), suctionRestPa, {
          fromS: runsUntilS(speed, events.speedRevPerS, SLOWS_SHARE),
          untilS: readings.elapsedS.at(-1) ?? 0,
        });
  const sinceStart = ({ timesS, values }: Course): Course => ({
    timesS: timesS.map((timeS) => timeS - motorStartS),
    values: values.map((value) => Math.max(0, value)),
  });
  const cause = causeOf({
    signs,
    setUp,
    top,
    oilDensityKgPerM3: oil.densityKgPerM3,
    sweptM3PerS: sweptVolumeM3PerRev * events.speedRevPerS,
    wasRisingAtEnd: events.wasRisingAtEnd,
    hold: pipeHold,
    column: drawn === null ? null : freeColumn(drawn, { top, oil, sweptM3PerS: sweptAt(drawn.timesS) }),
    leakShape: () =>
      drawn === null || endDrawnPa === null || !(setUp.deadVolumeM3 > 0)
        ? { shape: 'cannot tell', holeShare: 0, lead: 0 }
        : leakShape({
            drawn,
            speed: sinceStart(courseBetween(speed, motorStartS, events.runsUntilS)),
            noisePa: signs.suctionNoisePa,
            endPa: endDrawnPa.value,
            sweptVolumeM3PerRev,
            runningRevPerS: events.speedRevPerS,
            suctionLagS: statedLagS(bench, 'suctionPressure'),
            setUp,
            oil,
          }),
  });

  const channel = bench.channels.find((entry) => entry.channel === 'suctionPressure');
  const common = { timedOutAfterS: signs.watchedForS, cause, hold: pipeHold };
  if (endDrawnPa === null || suctionRestPa === null || channel === undefined) {
    return { ...common, ultimateSuctionPa: null, liftCarriedM: null, sources: [] };
  }
  const scatter: Source = {
    id: END_SOURCE_ID,
    label: 'suction at the end, scatter of its readings',
    kind: 'random',
    standardUncertainty: endDrawnPa.deviation,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
  const barometerPa = setUp.barometerPa.value;
  const asUncertain = (pa: number): Uncertain => channelValue(channel, pa, barometerPa, run.zeroCheck);
  // Against its own rest: an offset of the channel falls out.
  const ultimateSuctionPa = combine(endDrawnPa.value, [
    { input: asUncertain(suctionRestPa), derivative: 1 },
    { input: asUncertain(suctionRestPa - endDrawnPa.value), derivative: -1 },
    { input: { value: 0, sensitivities: { [scatter.id]: 1 } }, derivative: 1 },
  ]);
  const weightPaPerM = oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2;
  const liftM = endDrawnPa.value / weightPaPerM;
  const liftCarriedM = combine(liftM, [
    { input: ultimateSuctionPa, derivative: 1 / weightPaPerM },
    { input: state.densityKgPerM3, derivative: -liftM / oil.densityKgPerM3 },
  ]);
  return { ...common, ultimateSuctionPa, liftCarriedM, sources: [scatter, ...tank.sources] };
}
