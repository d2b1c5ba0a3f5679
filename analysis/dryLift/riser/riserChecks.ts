import { mean, sampleStandardDeviation } from 'simple-statistics';
import { BAROMETER_SOURCE_ID, channelValue } from '../../calibration/channelSources.ts';
import { oilStateAt } from '../../oil/oilStateAt.ts';
import type { Readings } from '../../readings.ts';
import type { RunRecord } from '../../records/runRecord.ts';
import { combine, type Source, sourceTable, type Uncertain } from '../../uncertainty/source.ts';
import { stateUncertainty } from '../../uncertainty/stateUncertainty.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { channelCourse, courseBetween } from '../events/course.ts';
import { lowestSuctionPa } from '../lowestSuction.ts';
import { tankOilTemperature } from '../tankOil.ts';
import type { RiserReading } from './riserReadings.ts';

/** A riser's column held against what the suction channel says. */
export type RiserCheck = {
  readonly atS: number | null;
  readonly heightM: Uncertain;
  /** Column that the suction carries, (p_atm − p)/(ρ g); null: not comparable. */
  readonly carriedM: Uncertain | null;
  readonly verdict: 'agrees' | 'contradicts' | 'not compared';
  /** To be added to readings of the suction, so that they stand on the riser; null: nothing to add. */
  readonly datumPa: Uncertain | null;
  /** Of tape and moment. */
  readonly sources: readonly Source[];
};

/** What a start's record says of when the column moved. */
export type RiserMoments = {
  readonly motorStartS: number;
  /** Surely none before; null: oil never came to the inlet. */
  readonly oilAtInletS: number | null;
  readonly lastS: number;
};

/** The suction's mean is taken over this long, the mark in its middle; a hand marks half a second off [s]. */
const WINDOW_S = 1;
const MARK_STANDARD_UNCERTAINTY_S = 0.5;
const LEAST_READINGS = 5;
/** Further apart than so many standard uncertainties the two contradict each other [1]. */
const DEVIATIONS = 3;

type Seen = { readonly pressure: Uncertain; readonly momentPa: number };

/** The suction about a mark, and how far off a mark made late or early would be. */
function seenAt(run: RunRecord, readings: Readings, atS: number): Seen | null {
  const channel = run.bench.channels.find((entry) => entry.channel === 'suctionPressure');
  const course = channelCourse(readings, 'suctionPressure');
  const { values } = courseBetween(course, atS - WINDOW_S / 2, atS + WINDOW_S / 2);
  if (channel === undefined || values.length < LEAST_READINGS) return null;
  const half = Math.floor(values.length / 2);
  const slopePaPerS = (mean(values.slice(-half)) - mean(values.slice(0, half))) / (WINDOW_S / 2);
  return {
    pressure: channelValue(channel, mean(values), run.setUp.barometerPa.value, run.zeroCheck),
    momentPa: Math.hypot(
      MARK_STANDARD_UNCERTAINTY_S * slopePaPerS,
      sampleStandardDeviation([...values]) / Math.sqrt(values.length),
    ),
  };
}

function comparable(
  run: RunRecord,
  readings: Readings,
  { atS }: RiserReading,
  { motorStartS, oilAtInletS, lastS }: RiserMoments,
): Seen | null {
  if (atS !== null) return oilAtInletS !== null && atS >= oilAtInletS ? null : seenAt(run, readings, atS);
  // The highest column belongs to the lowest suction only where no oil flowed on.
  const lowest = oilAtInletS === null ? lowestSuctionPa(run, readings, motorStartS, lastS) : null;
  return lowest === null ? null : { pressure: lowest, momentPa: 0 };
}

/**
 * Holds what was seen in a clear riser against the suction channel: while no oil has come to the inlet, the gas above the
 * column stands at p_atm − ρ g h.
 *
 * @param run - bench, set-up, oil, zero check [-]
 * @param readings - of the run [n readings, oldest first]
 * @param seen - readings of the riser [s, m]
 * @param moments - when the motor started, and when oil came to the inlet [s]
 * @param sources - of channels, barometer and oil [-]
 * @returns a check for each reading of the riser [m, Pa]
 *
 * Source: hydrostatics, p_atm − p = ρ g h; contradiction from three standard uncertainties of the difference on, a house limit.
 */
export function riserChecks(
  run: RunRecord,
  readings: Readings,
  seen: readonly RiserReading[],
  moments: RiserMoments,
  sources: readonly Source[],
): readonly RiserCheck[] {
  const common = { kind: 'calibration', degreesOfFreedom: null, shape: 'normal', pooledAs: null } as const;
  const oil = tankOilTemperature(run, readings);
  const density = oilStateAt(run.oil, oil.temperatureK).densityKgPerM3;
  const weightPaPerM = density.value * STANDARD_GRAVITY_M_PER_S2;
  const atmosphere: Uncertain = { value: run.setUp.barometerPa.value, sensitivities: { [BAROMETER_SOURCE_ID]: 1 } };
  return seen.map((reading, index): RiserCheck => {
    const { atS, heightM: taped } = reading;
    const tape = {
      ...common,
      id: `riser.${index}.tape`,
      label: 'clear riser, by tape',
      standardUncertainty: taped.standardUncertainty,
    };
    const heightM: Uncertain = { value: taped.value, sensitivities: { [tape.id]: 1 } };
    const found = comparable(run, readings, reading, moments);
    if (found === null) {
      return { atS, heightM, carriedM: null, verdict: 'not compared', datumPa: null, sources: [tape] };
    }
    const moment = {
      ...common,
      id: `riser.${index}.moment`,
      label: 'clear riser, moment of the mark',
      standardUncertainty: found.momentPa,
    };
    const own = [tape, moment, ...oil.sources];
    const momentPa: Uncertain = { value: 0, sensitivities: { [moment.id]: 1 } };
    const { pressure } = found;
    const carried = (atmosphere.value - pressure.value) / weightPaPerM;
    const carriedM = combine(carried, [
      { input: atmosphere, derivative: 1 / weightPaPerM },
      { input: pressure, derivative: -1 / weightPaPerM },
      { input: density, derivative: -carried / density.value },
      { input: momentPa, derivative: 1 / weightPaPerM },
    ]);
    const difference = combine(carried - taped.value, [
      { input: carriedM, derivative: 1 },
      { input: heightM, derivative: -1 },
    ]);
    const { value, standardUncertainty } = stateUncertainty(difference, sourceTable([...sources, ...own]));
    const datumPa = combine(atmosphere.value - weightPaPerM * taped.value - pressure.value, [
      { input: atmosphere, derivative: 1 },
      { input: heightM, derivative: -weightPaPerM },
      { input: density, derivative: -STANDARD_GRAVITY_M_PER_S2 * taped.value },
      { input: pressure, derivative: -1 },
      { input: momentPa, derivative: 1 },
    ]);
    const isApart = Math.abs(value) > DEVIATIONS * standardUncertainty;
    return { atS, heightM, carriedM, verdict: isApart ? 'contradicts' : 'agrees', datumPa, sources: own };
  });
}
