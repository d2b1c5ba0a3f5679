import { BAROMETER_SOURCE_ID, channelValue } from '../../calibration/channelSources.ts';
import { oilStateAt } from '../../oil/oilStateAt.ts';
import { no, type Outcome, yes } from '../../outcome.ts';
import type { Readings } from '../../readings.ts';
import type { RunRecord } from '../../records/runRecord.ts';
import { combine, type Source, sourceTable, type Uncertain } from '../../uncertainty/source.ts';
import { stateUncertainty } from '../../uncertainty/stateUncertainty.ts';
import { siDifferenceFrom, unitOf } from '../../units.ts';
import { channelCourse } from '../events/course.ts';
import { suctionRest } from '../events/suctionRest.ts';
import type { DryFitRefusal } from './dryFitRefusal.ts';
import type { MeasuredStart, StatedDeadVolume } from './measuredStartTypes.ts';
import type { StartMoments } from './startMoments.ts';
import { goodSeries, type Mean, meansOf, speedCourse, successiveDeviation } from './startSeries.ts';
import { suctionSideOf } from './suctionSide.ts';

/** Readings of the first seconds stand nearly alone; later ones are averaged: nothing changes fast any more [s]. */
const FINE_FOR_S = 3;
const FINE_MEANS = 150;
const COARSE_MEANS = 100;
/** The fit begins so long before the motor start, which is known to a few hundredths; before that all is at rest [s]. */
const REST_MARGIN_S = 0.1;
const LEAST_REST_READINGS = 10;
const LEAST_READINGS = 10;
/** A stated lag is right to about this share [1]: common practice, no source. */
const LAG_SHARE = 0.2;
/** Half a metre of oil is 4.3 kPa: p_atm − p must be good to this, standard uncertainty [Pa]. */
export const SUCTION_GOOD_TO_PA = 100;

/** A run's start made ready for the fit, with what belongs to it. */
export type PreparedStart = {
  readonly start: MeasuredStart;
  readonly deadVolume: StatedDeadVolume;
  /** Speed that is, over speed that was read [1]. */
  readonly speedScale: Uncertain;
  /** Set-up sources: those of channels, barometer and oil are the run's. */
  readonly sources: readonly Source[];
  readonly assumed: readonly string[];
  /** Suction at rest less barometer, before the motor start; null: the record shows no rest. */
  readonly restDifferencePa: Uncertain | null;
};

/** Standard uncertainty of p_atm − p as it stands without any look at the readings [Pa]. */
function differenceUncertaintyPa(pressure: Uncertain, barometer: Uncertain, sources: readonly Source[]): number {
  const difference = combine(0, [
    { input: barometer, derivative: 1 },
    { input: pressure, derivative: -1 },
  ]);
  return stateUncertainty(difference, sourceTable(sources)).standardUncertainty;
}

/**
 * Makes a recorded dry start ready for the fit: suction and speed from the motor start on, their noise, and what the set-up
 * and the bench record say of their errors. The readings at rest before the start tell the suction channel's offset against
 * the barometer.
 *
 * @param run - the run record: bench, set-up, oil, zero check [-]
 * @param readings - its readings [n readings, oldest first]
 * @param moments - motor start, running speed, and until when no oil can have come to the pump [s, rev/s]
 * @param oilTemperatureK - of the oil in the tank [K]
 * @param runSources - of channels, barometer and oil [-]
 * @param datumPa - to be added to readings of the suction where none were taken at rest: by a clear riser; null: nothing [Pa]
 * @returns the start, or why it cannot be used [SI]
 */
export function measuredStart(
  run: RunRecord,
  readings: Readings,
  moments: StartMoments,
  oilTemperatureK: Uncertain,
  runSources: readonly Source[],
  datumPa: Uncertain | null = null,
): Outcome<PreparedStart, DryFitRefusal> {
  const { setUp, bench } = run;
  const kind = run.kind === 'blanked' ? 'blanked' : 'lift';
  const { motorStartS, runningRevPerS, untilS } = moments;
  if (!(setUp.deadVolumeM3 > 0)) {
    return no({
      code: 'DEAD_VOLUME_ZERO',
      text: 'The set-up says that there is no gas between flange and gears: there always is some. Measure or estimate the dead volume and correct the set-up.',
    });
  }
  if (kind === 'lift' && setUp.suctionPipe === null && setUp.suctionPipeLengthM < setUp.staticLiftM.value) {
    return no({
      code: 'PIPE_CANNOT_HOLD_COLUMN',
      text: `A pipe of ${setUp.suctionPipeLengthM} m cannot hold a column of ${setUp.staticLiftM.value} m: one of the two is wrong in the set-up.`,
    });
  }
  const channel = bench.channels.find((entry) => entry.channel === 'suctionPressure');
  const speedChannel = bench.channels.find((entry) => entry.channel === 'speed');
  for (const [name, entry] of [
    ['suctionPressure', channel],
    ['speed', speedChannel],
  ] as const) {
    if (entry === undefined || readings.channels[name] === undefined) {
      return no({ code: 'CHANNEL_MISSING', text: `Leak-back cannot be told without the channel '${name}'.` });
    }
  }
  if (channel === undefined || speedChannel === undefined) return no(tooShort(0));

  const originS = motorStartS - REST_MARGIN_S;
  const found = suctionRest(channelCourse(readings, 'suctionPressure'), originS);
  const rest = found !== null && found.count >= LEAST_REST_READINGS ? found : null;
  const moving = goodSeries(readings, 'suctionPressure', originS, untilS);
  if (moving.values.length < LEAST_READINGS) return no(tooShort(moving.values.length));
  const step = siDifferenceFrom(channel.resolution, unitOf(channel.unit)) / Math.sqrt(12);
  const noisePa = Math.max(step, 1, rest?.noisePa ?? successiveDeviation(moving.values));

  const barometer: Uncertain = { value: setUp.barometerPa.value, sensitivities: { [BAROMETER_SOURCE_ID]: 1 } };
  const asRead = (pressurePa: number): Uncertain =>
    channelValue(channel, pressurePa, setUp.barometerPa.value, run.zeroCheck);
  const asUncertain = (pressurePa: number): Uncertain => {
    const read = asRead(pressurePa);
    if (rest !== null || datumPa === null) return read;
    return combine(read.value + datumPa.value, [
      { input: read, derivative: 1 },
      { input: datumPa, derivative: 1 },
    ]);
  };
  const restPa = rest?.meanPa ?? setUp.barometerPa.value;
  const beforehandPa = differenceUncertaintyPa(asUncertain(restPa), barometer, runSources);
  if (rest === null && beforehandPa > SUCTION_GOOD_TO_PA) {
    return no({
      code: 'SUCTION_NOT_GOOD_ENOUGH',
      text: `Suction against barometer is known to ${beforehandPa.toFixed(0)} Pa, and the limit needs ${SUCTION_GOOD_TO_PA} Pa: record two seconds at rest before the motor starts, zero the channel, measure the barometer, or mark how high the oil stands in a clear riser.`,
    });
  }

  const fineS = FINE_FOR_S / FINE_MEANS;
  const coarseS = Math.max(fineS, (untilS - motorStartS - FINE_FOR_S) / COARSE_MEANS);
  const means = meansOf(moving, (timeS) => (timeS < motorStartS + FINE_FOR_S ? fineS : coarseS));
  const restMean: readonly Mean[] =
    rest === null ? [] : [{ timeS: rest.meanAtS, value: rest.meanPa, count: rest.count }];
  const all = [...restMean, ...means];
  const side = suctionSideOf(setUp);
  const oil = oilStateAt(run.oil, oilTemperatureK);
  const readSpeed = channelValue(speedChannel, runningRevPerS, setUp.barometerPa.value, run.zeroCheck);
  const intervalS = (untilS - motorStartS) / moving.values.length;
  const lags = [channel.lagS, speedChannel.lagS];
  return yes({
    start: {
      id: run.id,
      kind,
      motorStartS: REST_MARGIN_S,
      timesS: all.map(({ timeS }) => timeS - originS),
      pressuresPa: all.map(({ value }) => asUncertain(value)),
      standardDeviationsPa: all.map(({ count }) => Math.hypot(noisePa / Math.sqrt(count), step)),
      suctionLagS: channel.lagS,
      speedRevPerS: speedCourse(readings, moments, originS, speedChannel.lagS),
      runningRevPerS,
      timingStandardUncertaintyS: Math.hypot(intervalS / Math.sqrt(12), ...lags.map((lagS) => LAG_SHARE * lagS)),
      surroundings: {
        atmospherePa: barometer,
        ...oil,
        pipe: side.pipe,
      },
    },
    deadVolume: side.deadVolume,
    speedScale: combine(1, [{ input: { ...readSpeed, value: 0 }, derivative: 1 / runningRevPerS }]),
    sources: side.sources,
    assumed: side.assumed,
    restDifferencePa:
      rest === null
        ? null
        : combine(restPa - barometer.value, [
            { input: asUncertain(restPa), derivative: 1 },
            { input: barometer, derivative: -1 },
          ]),
  });
}

function tooShort(count: number): DryFitRefusal {
  return {
    code: 'TOO_FEW_READINGS',
    text: `Only ${count} readings of the suction lie between motor start and oil: read at least ten times as often as it takes seconds to prime.`,
  };
}
