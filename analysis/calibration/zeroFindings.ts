import { CHANNELS } from '../channels.ts';
import { printFixed } from '../formatStated.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { Finding } from '../result.ts';
import { sourceTable, type Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { differenceFrom, siFrom, unitOf } from '../units.ts';
import { BAROMETER_SOURCE_ID, channelSources, channelValue } from './channelSources.ts';

/** An offset beyond this many standard uncertainties is not what the calibration stated [1]. */
const DEVIATIONS = 3;

function significant(value: number, digits: number): string {
  return printFixed(value, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value) || 1))));
}

/**
 * What the zero check says of the calibrations: an offset beyond three standard uncertainties of the channel at rest (offset,
 * drift and whatever else its calibration states there; for absolute pressures the barometer's too), together with the
 * check's own.
 *
 * @param run - run record with its zero check; none taken, none found [-]
 * @returns a warning a channel, ZERO_OFFSET; channels without a calibration state nothing that could be missed [-]
 */
export function zeroFindings(run: RunRecord): readonly Finding[] {
  const { bench, zeroCheck, setUp } = run;
  const onDate = run.startedAtUtc.slice(0, 10);
  return bench.channels.flatMap((channel): Finding[] => {
    const zero = zeroCheck?.channels.find((entry) => entry.channel === channel.channel);
    if (zero === undefined || channel.calibration === null) return [];
    const unit = unitOf(channel.unit);
    const isAbsolutePressure = unit.quantity === 'pressure' && !unit.isGauge;
    const atRestSi = isAbsolutePressure ? setUp.barometerPa.value : siFrom(0, unit, setUp.barometerPa.value);
    const { value, sensitivities } = channelValue(channel, atRestSi, setUp.barometerPa.value);
    const offset: Uncertain = {
      value,
      // Zero is gauge against the atmosphere itself: only an absolute pressure is held against the barometer.
      sensitivities: { ...sensitivities, [BAROMETER_SOURCE_ID]: isAbsolutePressure ? 1 : 0, check: 1 },
    };
    const other = { kind: 'calibration', degreesOfFreedom: null, shape: 'normal', pooledAs: null } as const;
    const sources = sourceTable([
      ...channelSources(channel, { onDate, zeroCheck: null }),
      {
        ...other,
        id: BAROMETER_SOURCE_ID,
        label: 'barometer',
        standardUncertainty: setUp.barometerPa.standardUncertainty,
      },
      { ...other, id: 'check', label: 'zero check', standardUncertainty: zero.standardUncertainty * unit.siPerUnit },
    ]);
    const limit = DEVIATIONS * differenceFrom(stateUncertainty(offset, sources).standardUncertainty, unit);
    if (Math.abs(zero.offset) <= limit) return [];
    const done = zero.isApplied
      ? 'It was taken off every reading'
      : 'It was not taken off, so every value of this channel carries it';
    return [
      {
        code: 'ZERO_OFFSET',
        severity: 'warning',
        text: `At rest '${CHANNELS[channel.channel].label}' stood ${significant(zero.offset, 3)} ${channel.unit} off, beyond the ±${significant(limit, 2)} ${channel.unit} that its calibration (${channel.calibration.reference}) allows. ${done}; have the instrument looked at.`,
      },
    ];
  });
}
