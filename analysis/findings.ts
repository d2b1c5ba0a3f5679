import { CHANNELS } from './channels.ts';
import { oilState } from './oil/oilState.ts';
import { goodValues, type LineCensus, QUALITY, type Readings } from './readings.ts';
import type { RunRecord } from './records/runRecord.ts';
import type { Finding } from './result.ts';
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
    const outCount = quality.reduce((count, code) => (code === QUALITY.outOfRange ? count + 1 : count), 0);
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

/** Range of the inlet oil where it leaves what the oil record may be asked; null where it stays inside [°C]. */
function temperaturesBeyondOil(
  run: RunRecord,
  readings: Readings,
): { readonly lowestC: number; readonly highestC: number } | null {
  const column = readings.channels.oilTemperature;
  const good = column === undefined ? [] : goodValues(column);
  if (good.length === 0) return null;
  const lowestK = good.reduce((least, temperatureK) => Math.min(least, temperatureK));
  const highestK = good.reduce((most, temperatureK) => Math.max(most, temperatureK));
  const isBeyond = [lowestK, highestK].some((temperatureK) => oilState(run.oil, temperatureK).isExtrapolated);
  return isBeyond ? { lowestC: lowestK - ICE_POINT_K, highestC: highestK - ICE_POINT_K } : null;
}

/** What must be known of a run before its numbers are read: the line, the channels, their calibrations, the oil. */
export function runFindings(run: RunRecord, readings: Readings, census: LineCensus, isPractice: boolean): Finding[] {
  const findings = [...lineFindings(census), ...channelFindings(run, readings)];
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
