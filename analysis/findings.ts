import { zeroFindings } from './calibration/zeroFindings.ts';
import { CHANNELS } from './channels.ts';
import { clockFindings } from './clock/tieClocks.ts';
import { oilState } from './oil/oilState.ts';
import { isAllGood, type LineCensus, QUALITY, type Readings } from './readings.ts';
import type { RunRecord } from './records/runRecord.ts';
import type { Finding } from './result.ts';
import { columnSuspicions } from './suspicion/columnSuspicions.ts';
import { ICE_POINT_K } from './units.ts';

/** More bad lines than this, and the line itself is the first thing to mend [1]. */
const BAD_LINE_SHARE = 0.01;

/** More readings than this outside a channel's range, and the run says nothing of the pump [1]. */
const OUT_OF_RANGE_SHARE = 0.01;

function badLineText(census: LineCensus): string {
  return Object.entries(census.badLineCounts)
    .map(([kind, count]) => `${count} ${kind}`)
    .join(', ');
}

function lineFindings(census: LineCensus): Finding[] {
  const badCount = census.lineCount - census.readingCount - census.noteCount;
  const findings: Finding[] = [];
  if (census.readingCount === 0) {
    findings.push({
      code: 'NO_READINGS',
      severity: 'unfit',
      text: `Not one of ${census.lineCount} lines could be read (${badLineText(census) || 'the line was silent'}): compare the bench record with what the bench sends.`,
    });
  } else if (badCount > 0) {
    findings.push({
      code: 'BAD_LINES',
      severity: badCount > BAD_LINE_SHARE * census.lineCount ? 'warning' : 'note',
      text: `${badCount} of ${census.lineCount} lines were bad (${badLineText(census)}); they are kept in the journal and left out of the readings.`,
    });
  }
  if (census.lostReadingCount > 0) {
    findings.push({
      code: 'LOST_READINGS',
      severity: census.lostReadingCount > BAD_LINE_SHARE * census.lineCount ? 'warning' : 'note',
      text: `The bench counted ${census.lostReadingCount} readings that never came.`,
    });
  }
  if (census.reconnectCount > 0) {
    findings.push({
      code: 'RECONNECTED',
      severity: 'warning',
      text: `The line was lost and found again ${census.reconnectCount} times; the gaps are marked in the journal.`,
    });
  }
  return findings;
}

function countFaults(quality: Uint8Array): { readonly outCount: number; readonly faultCount: number } {
  let outCount = 0;
  let faultCount = 0;
  if (isAllGood(quality)) return { outCount, faultCount };
  for (let index = 0; index < quality.length; index += 1) {
    const code = quality[index];
    if (code === QUALITY.outOfRange) outCount += 1;
    else if (code === QUALITY.sensorFault) faultCount += 1;
  }
  return { outCount, faultCount };
}

function channelFindings(run: RunRecord, readings: Readings): Finding[] {
  const runDate = run.startedAtUtc.slice(0, 10);
  return run.bench.channels.flatMap((channel): Finding[] => {
    const { label } = CHANNELS[channel.channel];
    const findings: Finding[] = [];
    if (channel.calibration === null) {
      findings.push({
        code: 'NOT_CALIBRATED',
        severity: 'note',
        text: `The channel '${label}' has no stated calibration: what rests on it is measured, never passed.`,
      });
    } else if (channel.calibration.dueOn < runDate) {
      findings.push({
        code: 'CALIBRATION_OUT_OF_DATE',
        severity: 'unfit',
        text: `The calibration of '${label}' (${channel.calibration.reference}) was due on ${channel.calibration.dueOn}, before this run on ${runDate}: have it calibrated and repeat the run.`,
      });
    }
    const quality = readings.channels[channel.channel]?.quality;
    if (quality === undefined) return findings;
    const { outCount, faultCount } = countFaults(quality);
    if (faultCount > 0) {
      findings.push({
        code: 'SENSOR_FAULT',
        severity: faultCount > OUT_OF_RANGE_SHARE * quality.length ? 'unfit' : 'warning',
        text: `The current loop of '${label}' reported a failure (3.6 mA or less, or 21.0 mA or more) in ${faultCount} of ${quality.length} readings; these are left out. Look for a broken wire, a missing supply or a failed transmitter.`,
      });
    }
    if (outCount > 0) {
      findings.push({
        code: 'OUT_OF_RANGE',
        severity: outCount > OUT_OF_RANGE_SHARE * quality.length ? 'unfit' : 'warning',
        text: `'${label}' stood outside its range of ${channel.range.min} to ${channel.range.max} ${channel.unit} in ${outCount} of ${quality.length} readings; these are left out.`,
      });
    }
    return findings;
  });
}

/** Oil warms slowly: so many readings of a long run, evenly taken, show how far it went. */
const MOST_TEMPERATURES = 10_000;

/** Range of the inlet oil where it leaves what the oil record may be asked; null where it stays inside [°C]. */
function temperaturesBeyondOil(
  run: RunRecord,
  readings: Readings,
): { readonly lowestC: number; readonly highestC: number } | null {
  const column = readings.channels.oilTemperature;
  if (column === undefined) return null;
  const { values, quality } = column;
  const mayAllCount = isAllGood(quality);
  let lowestK = Number.POSITIVE_INFINITY;
  let highestK = Number.NEGATIVE_INFINITY;
  const stride = Math.max(1, Math.floor(values.length / MOST_TEMPERATURES));
  for (let index = 0; index < values.length; index += stride) {
    if (!mayAllCount && quality[index] !== QUALITY.good) continue;
    const temperatureK = values[index] ?? Number.NaN;
    if (temperatureK < lowestK) lowestK = temperatureK;
    if (temperatureK > highestK) highestK = temperatureK;
  }
  if (highestK < lowestK) return null;
  const isBeyond = [lowestK, highestK].some((temperatureK) => oilState(run.oil, temperatureK).isExtrapolated);
  return isBeyond ? { lowestC: lowestK - ICE_POINT_K, highestC: highestK - ICE_POINT_K } : null;
}

/** What must be known of a run before its numbers are read: the line, the channels, their calibrations, the oil. */
export function runFindings(run: RunRecord, readings: Readings, census: LineCensus, isPractice: boolean): Finding[] {
  const findings = [
    ...lineFindings(census),
    ...channelFindings(run, readings),
    ...columnSuspicions(run, readings),
    ...zeroFindings(run),
    ...clockFindings(readings.clockTie, isPractice),
  ];
  if (isPractice) {
    findings.push({
      code: 'PRACTICE',
      severity: 'note',
      text: 'The practice bench wrote this run: no real pump was tested, and what is filed is a specimen.',
    });
  }
  if (readings.clock === 'arrival') {
    findings.push({
      code: 'ARRIVAL_CLOCK',
      severity: 'note',
      text: 'Times are those at which the lines arrived: the bench sends no clock of its own.',
    });
  }
  const beyond = temperaturesBeyondOil(run, readings);
  if (beyond !== null) {
    findings.push({
      code: 'OIL_EXTRAPOLATED',
      severity: 'note',
      text: `The oil stood between ${beyond.lowestC.toFixed(1)} and ${beyond.highestC.toFixed(1)} °C, outside the temperatures that its viscosity is stated for: slip is spoken with an extrapolated viscosity.`,
    });
  }
  if (run.oil.viscosityBasis === 'grade') {
    findings.push({
      code: 'GRADE_VISCOSITY',
      severity: 'note',
      text: `The viscosity of ${run.oil.name} is that of its grade, ±10 %: a measured one would narrow what is said of slip.`,
    });
  }
  return findings;
}
