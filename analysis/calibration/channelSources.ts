import { CHANNELS } from '../channels.ts';
import type { BenchChannel } from '../records/benchRecord.ts';
import type { ZeroCheck } from '../records/runRecord.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { readingFrom, siDifferenceFrom, unitOf } from '../units.ts';
import { appliedZero } from './appliedZero.ts';
import { type ChannelError, channelErrors } from './channelErrors.ts';
import { kFactorSourceId } from './kFactor.ts';
import { tappingHeightSourceId } from './tappingHead.ts';

/** Id of the barometer's error, shared by every gauge pressure. */
export const BAROMETER_SOURCE_ID = 'setUp.barometer';

const MS_PER_YEAR = 365.25 * 24 * 3600 * 1000;

export type CalibrationCircumstances = {
  /** Day of the run, '2026-06-01'. */
  readonly onDate: string;
  readonly zeroCheck: ZeroCheck | null;
};

/** Years between two days, in whichever order: errors drift away from the day of calibration both ways. */
function yearsBetween(firstDate: string, secondDate: string): number {
  const years = Math.abs(Date.parse(secondDate) - Date.parse(firstDate)) / MS_PER_YEAR;
  if (Number.isNaN(years)) throw new RangeError(`onDate: ${secondDate} or calibratedOn: ${firstDate} is no day`);
  return years;
}

const COMMON = { kind: 'calibration', degreesOfFreedom: null, pooledAs: null } as const;

/** The errors that the bench record states besides the calibration: height of a transmitter, table of a flow meter. */
function mountingSources(channel: BenchChannel): readonly Source[] {
  const { tapping, kFactor } = channel;
  const { label } = CHANNELS[channel.channel];
  const sources: Source[] = [];
  if (tapping !== null) {
    sources.push({
      ...COMMON,
      id: tappingHeightSourceId(channel),
      label: `${label}, height of the transmitter`,
      standardUncertainty: tapping.heightOverInletM.standardUncertainty,
      shape: 'normal',
    });
  }
  if (kFactor !== null) {
    sources.push({
      ...COMMON,
      id: kFactorSourceId(channel),
      label: `${label}, K-factor against viscosity`,
      standardUncertainty: kFactor.relativeStandardUncertainty,
      shape: 'normal',
    });
  }
  return sources;
}

/**
 * The calibration errors of a channel as named sources, common to every reading of a run: gain, offset, linearity, drift since
 * the day of calibration (per year × years, either way), class, curve, height of the transmitter and K-factor. An applied zero
 * check replaces the offset's uncertainty by its own and takes off what else is constant along the range. A channel without
 * a calibration has no errors of its own; the run's findings say so.
 *
 * @param channel - channel of the bench record [-]
 * @param circumstances - day of the run, and its zero check [-]
 * @returns sources; relative ones in [1], heights in [m], others in the SI unit of the channel [-]
 * @throws RangeError if a date is none
 */
export function channelSources(channel: BenchChannel, circumstances: CalibrationCircumstances): readonly Source[] {
  const zero = appliedZero(circumstances.zeroCheck, channel.channel);
  const prefix = channel.channel;
  const years = channel.calibration === null ? 0 : yearsBetween(channel.calibration.calibratedOn, circumstances.onDate);
  const errors = channelErrors(channel)
    .filter(({ suffix }) => zero === null || suffix !== 'offset')
    .map(
      (error): Source => ({
        id: `${prefix}.${error.suffix}`,
        label: error.label,
        kind: 'calibration',
        standardUncertainty:
          zero !== null && error.isConstant ? 0 : error.standardUncertainty * (error.isPerYear ? years : 1),
        degreesOfFreedom: error.degreesOfFreedom,
        shape: error.shape,
        pooledAs: error.pooledSuffix === null ? null : `${prefix}.${error.pooledSuffix}`,
      }),
    );
  if (zero === null) return [...errors, ...mountingSources(channel)];
  const zeroSource: Source = {
    ...COMMON,
    id: `${prefix}.offset`,
    label: `${CHANNELS[prefix].label}, zero check before the run`,
    standardUncertainty: siDifferenceFrom(zero.standardUncertainty, unitOf(channel.unit)),
    shape: 'normal',
  };
  return [...errors, zeroSource, ...mountingSources(channel)];
}

/** Where along its range a channel stood while its zero was taken, in its own unit: at nothing, absolute pressures at the barometer. */
function readingAtZeroCheck(channel: BenchChannel, barometerPa: number): number {
  const unit = unitOf(channel.unit);
  return unit.quantity === 'pressure' && !unit.isGauge ? readingFrom(barometerPa, unit, barometerPa) : 0;
}

/**
 * An indicated value with its sensitivities to the channel's calibration errors.
 * indicated = true + Σ e_j f_j(reading), f = reading for the gain, 1 for the offset, …, so ∂true/∂e_j = −f_j to first order;
 * a gauge pressure besides gains what the barometer gains.
 *
 * With an applied zero check: true = indicated − (indicated₀ − true₀), so every error counts by what it adds between the zero
 * and the reading, ∂true/∂e_j = −(f_j(reading) − f_j(reading₀)), and −1 by the check's own error. An absolute pressure was
 * zeroed against the barometer and from then on carries its error as a gauge pressure does, so that it cancels in a
 * difference of the two. Reading₀ is nothing, for absolute pressures the barometer; the head in a tube is left out of it (it
 * moves f by head over range).
 *
 * @param channel - channel of the bench record [-]
 * @param indicatedSi - what the channel said, zero taken off, absolute pressure for gauge channels [SI unit of the channel]
 * @param barometerPa - barometer used to make gauge pressures absolute [Pa]
 * @param zeroCheck - of the run; null where none was taken [-]
 * @returns the value with sensitivities to the sources of channelSources and to the barometer [SI unit of the channel]
 *
 * Source: JCGM 100:2008, 5.1.3 (sensitivity coefficients); derivation above.
 */
export function channelValue(
  channel: BenchChannel,
  indicatedSi: number,
  barometerPa: number,
  zeroCheck: ZeroCheck | null = null,
): Uncertain {
  const unit = unitOf(channel.unit);
  const isZeroed = appliedZero(zeroCheck, channel.channel) !== null;
  const reading = readingFrom(indicatedSi, unit, barometerPa);
  const readingAtZero = readingAtZeroCheck(channel, barometerPa);
  const shareOf = (error: ChannelError): number =>
    isZeroed ? error.at(reading) - error.at(readingAtZero) : error.at(reading);
  const sensitivities: Record<string, number> = {};
  for (const error of channelErrors(channel)) sensitivities[`${channel.channel}.${error.suffix}`] = -shareOf(error);
  if (isZeroed) sensitivities[`${channel.channel}.offset`] = -1;
  if (unit.isGauge || (isZeroed && unit.quantity === 'pressure')) sensitivities[BAROMETER_SOURCE_ID] = 1;
  return { value: indicatedSi, sensitivities };
}
