import { CHANNELS } from '../channels.ts';
import type { AccuracyClass, BenchChannel, Calibration, CalibrationCurve } from '../records/benchRecord.ts';
import type { Source } from '../uncertainty/source.ts';
import { siDifferenceFrom, unitOf } from '../units.ts';
import { type CurveFit, curveErrorShares, fitCurve, rawAt } from './fitCurve.ts';

/** A calibration error of a channel and how it shows along the range. */
export type ChannelError = {
  /** Behind the channel's name: 'gain', 'linearity', … */
  readonly suffix: string;
  readonly label: string;
  /** Relative for shares of the reading [1], else in the SI unit of the channel; for drifts per year. */
  readonly standardUncertainty: number;
  readonly shape: Source['shape'];
  readonly degreesOfFreedom: number | null;
  /** One common estimate behind several errors; behind the channel's name as well. */
  readonly pooledSuffix: string | null;
  /** Grows with the time since calibration. */
  readonly isPerYear: boolean;
  /** The same at every reading: a zero check replaces it. */
  readonly isConstant: boolean;
  /** ∂indicated/∂error in SI at a reading in the channel's own unit. */
  readonly at: (reading: number) => number;
};

const KNOWN = { degreesOfFreedom: null, pooledSuffix: null, isPerYear: false, isConstant: false } as const;

const one = (): number => 1;

/** The curve of a calibration record; the record was refused if it had none. */
export function acceptedCurve(curve: CalibrationCurve): CurveFit {
  const fit = fitCurve(curve);
  if (!fit.ok) throw new RangeError(`curve: ${fit.reason.text}`);
  return fit.value;
}

function statedErrors(channel: BenchChannel, calibration: Calibration): readonly ChannelError[] {
  const unit = unitOf(channel.unit);
  const { gain, offset, linearity, driftPerYear } = calibration;
  const { min, max } = channel.range;
  const reading = (value: number): number => siDifferenceFrom(value, unit);
  const bow = (value: number): number => (4 * (value - min) * (max - value)) / (max - min) ** 2;
  const drifts = { ...KNOWN, shape: driftPerYear.shape, isPerYear: true };
  const errors: readonly ChannelError[] = [
    { ...KNOWN, ...gain, suffix: 'gain', label: 'gain of the instrument', at: reading },
    {
      ...KNOWN,
      suffix: 'offset',
      label: 'offset of the instrument',
      standardUncertainty: siDifferenceFrom(offset.standardUncertainty, unit),
      shape: offset.shape,
      isConstant: true,
      at: one,
    },
    {
      ...KNOWN,
      suffix: 'linearity',
      label: 'linearity of the instrument',
      standardUncertainty: siDifferenceFrom(linearity.standardUncertainty, unit),
      shape: linearity.shape,
      at: bow,
    },
    {
      ...drifts,
      suffix: 'gainDrift',
      label: 'drift of the gain since calibration',
      standardUncertainty: driftPerYear.gain,
      at: reading,
    },
    {
      ...drifts,
      suffix: 'offsetDrift',
      label: 'drift of the offset since calibration',
      standardUncertainty: siDifferenceFrom(driftPerYear.offset, unit),
      isConstant: true,
      at: one,
    },
  ];
  return errors.filter(
    ({ suffix, standardUncertainty }) => ['gain', 'offset'].includes(suffix) || standardUncertainty > 0,
  );
}

/**
 * A class says that the error keeps within ±a everywhere and nothing of its course. Independent errors at both ends of the
 * range and a bow between them, each rectangular, give a variance of a²/3 at the ends and in the middle and a little less between:
 * (1−t)² + t² + ½ (4t(1−t))² = 1, 0.91, 1 at t = 0, ¼ or ¾, ½.
 */
function classErrors(channel: BenchChannel, accuracyClass: AccuracyClass): readonly ChannelError[] {
  const { min, max } = channel.range;
  const unit = unitOf(channel.unit);
  const limit = siDifferenceFrom((accuracyClass.percentOfSpan / 100) * (max - min), unit);
  const share = (reading: number): number => (reading - min) / (max - min);
  const standardUncertainty = limit / Math.sqrt(3);
  const within = { ...KNOWN, shape: 'rectangular', standardUncertainty } as const;
  const errors: readonly ChannelError[] = [
    {
      ...within,
      suffix: 'classLow',
      label: 'accuracy class, low end of the range',
      at: (reading) => 1 - share(reading),
    },
    { ...within, suffix: 'classHigh', label: 'accuracy class, high end of the range', at: share },
    {
      ...within,
      suffix: 'classBow',
      label: 'accuracy class, middle of the range',
      standardUncertainty: standardUncertainty / Math.SQRT2,
      at: (reading) => 4 * share(reading) * (1 - share(reading)),
    },
    {
      ...within,
      suffix: 'classReading',
      label: 'accuracy class, share of the reading',
      standardUncertainty: accuracyClass.percentOfReading / 100 / Math.sqrt(3),
      at: (reading) => siDifferenceFrom(reading, unit),
    },
  ];
  return errors.filter((error) => error.standardUncertainty > 0);
}

function curveErrors(channel: BenchChannel, curve: CalibrationCurve): readonly ChannelError[] {
  const unit = unitOf(channel.unit);
  const fit = acceptedCurve(curve);
  const scatter = fit.coefficients.map(
    (_, direction): ChannelError => ({
      suffix: `curve.${direction}`,
      label: 'scatter about the calibration curve',
      standardUncertainty: siDifferenceFrom(fit.residualStandardDeviation, unit),
      shape: 'normal',
      degreesOfFreedom: fit.degreesOfFreedom,
      pooledSuffix: 'curve',
      isPerYear: false,
      isConstant: false,
      at: (reading) => curveErrorShares(fit, rawAt(fit, reading))[direction] ?? Number.NaN,
    }),
  );
  return [
    ...scatter,
    {
      ...KNOWN,
      suffix: 'curveReference',
      label: 'reference of the calibration',
      standardUncertainty: siDifferenceFrom(curve.referenceStandardUncertainty, unit),
      shape: 'normal',
      isConstant: true,
      at: one,
    },
  ];
}

/**
 * The calibration errors of a channel: gain, offset, linearity, drift, class and curve, as far as its record states them.
 *
 * Linearity is a parabola that is nothing at the ends of the range and largest in its middle, 4 (x − min)(max − x)/(max − min)²:
 * a common assumption, no source; where the departure really runs otherwise, a curve through points serves better.
 *
 * @param channel - channel of the bench record [-]
 * @returns its errors, labels without the channel's name; none where nobody vouches for it [-]
 */
export function channelErrors(channel: BenchChannel): readonly ChannelError[] {
  const { calibration } = channel;
  if (calibration === null) return [];
  const { label } = CHANNELS[channel.channel];
  return [
    ...statedErrors(channel, calibration),
    ...(calibration.accuracyClass === null ? [] : classErrors(channel, calibration.accuracyClass)),
    ...(calibration.curve === null ? [] : curveErrors(channel, calibration.curve)),
  ].map((error) => ({ ...error, label: `${label}, ${error.label}` }));
}
