import { mean } from 'simple-statistics';
import { CHANNEL_NAMES, type ChannelName } from '../channels.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import { type Column, QUALITY, type Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftRefusal } from '../result.ts';
import type { RecordedStart } from './estimateRun.ts';
import { findPriming } from './findPriming.ts';

/** Why a blanked run says nothing. */
export type BlankedRefusal =
  | Pick<DryLiftRefusal, 'code' | 'text'>
  | { readonly code: 'SUCTION_NOT_SHUT'; readonly text: string };

export type BlankedStarts = {
  readonly starts: readonly RecordedStart[];
  /** Starts whose suction had not come back to the atmosphere when the motor was started again. */
  readonly leftOut: number;
};

/** The shaft turns from this share of the fastest speed on [1]. */
const TURNING_SHARE = 0.05;
/** Shorter turning than this is a jog, no start [s]. */
const SHORTEST_TURNING_S = 1;
/** So much of the rest before a start belongs to it [s]. */
const REST_S = 2;
/** The end of that rest, at which the suction must stand at the atmosphere again; of a later start no more than this [s]. */
const REST_END_S = 1;
/** What still counts as come back: the start is fitted as one from the atmosphere [Pa]. */
const COME_BACK_PA = 100;

type Stretch = { readonly fromS: number; readonly toS: number };

/** Readings of a stretch of time, ends included; times go on as they were. */
function between(readings: Readings, { fromS, toS }: Stretch): Readings {
  const first = readings.elapsedS.findIndex((timeS) => timeS >= fromS);
  const beyond = readings.elapsedS.findIndex((timeS) => timeS > toS);
  const [from, to] = [first < 0 ? readings.elapsedS.length : first, beyond < 0 ? readings.elapsedS.length : beyond];
  const channels: Partial<Record<ChannelName, Column>> = {};
  for (const name of CHANNEL_NAMES) {
    const column = readings.channels[name];
    if (column === undefined) continue;
    channels[name] = { values: column.values.subarray(from, to), quality: column.quality.subarray(from, to) };
  }
  return { ...readings, elapsedS: readings.elapsedS.subarray(from, to), channels };
}

/** Stretches in which the shaft turned. */
function turningStretches({ elapsedS, channels }: Readings): readonly Stretch[] {
  const speed = channels.speed;
  if (speed === undefined) return [];
  const fastest = speed.values.reduce(
    (most, value, index) => (speed.quality[index] === QUALITY.good ? Math.max(most, value) : most),
    0,
  );
  const stretches: Stretch[] = [];
  let fromS: number | null = null;
  for (const [index, timeS] of elapsedS.entries()) {
    if (speed.quality[index] !== QUALITY.good) continue;
    const isTurning = (speed.values[index] ?? 0) > TURNING_SHARE * fastest;
    if (isTurning) fromS ??= timeS;
    else if (fromS !== null) {
      if (timeS - fromS >= SHORTEST_TURNING_S) stretches.push({ fromS, toS: timeS });
      fromS = null;
    }
  }
  const lastS = elapsedS.at(-1) ?? 0;
  if (fromS !== null && lastS - fromS >= SHORTEST_TURNING_S) stretches.push({ fromS, toS: lastS });
  return stretches;
}

function goodSuction(readings: Readings, fromS: number, toS: number): readonly number[] {
  const column = readings.channels.suctionPressure;
  if (column === undefined) return [];
  return Array.from(column.values).filter((_, index) => {
    const timeS = readings.elapsedS[index] ?? Number.NaN;
    return timeS >= fromS && timeS <= toS && column.quality[index] === QUALITY.good;
  });
}

/** A blanked pump delivers nothing: a bench without a flow meter is read as one that shows none. */
function withFlow(readings: Readings): Readings {
  if (readings.channels.flow !== undefined) return readings;
  const length = readings.elapsedS.length;
  const flow = { values: new Float64Array(length), quality: new Uint8Array(length).fill(QUALITY.good) };
  return { ...readings, channels: { ...readings.channels, flow } };
}

/**
 * The starts of a blanked run: each stretch of turning with the rest before it. A start counts where the suction stood at
 * what it stood at in the beginning.
 *
 * @param run - the run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolumeM3PerRev - V_g of the pump [m³/rev]
 * @returns the starts, or why the run says nothing [-]
 */
export function blankedStarts(
  run: RunRecord,
  readings: Readings,
  sweptVolumeM3PerRev: number,
): Outcome<BlankedStarts, BlankedRefusal> {
  const starts: RecordedStart[] = [];
  let leftOut = 0;
  let freeSinceS = Number.NEGATIVE_INFINITY;
  let atmospherePa: number | null = null;
  for (const stretch of turningStretches(readings)) {
    const fromS = Math.max(freeSinceS, stretch.fromS - (starts.length === 0 ? REST_S : REST_END_S));
    freeSinceS = stretch.toS;
    const part = between(readings, { fromS, toS: stretch.toS });
    const found = findPriming(withFlow(part), run.bench, sweptVolumeM3PerRev, run.setUp.deliveryLineVolumeM3);
    if (!found.ok) return no({ code: found.reason.code, text: found.reason.text });
    if (found.value.arrival.primed) {
      return no({
        code: 'SUCTION_NOT_SHUT',
        text: 'Oil was delivered, so the suction was not shut: this says nothing of a blanked pump. Shut the valve at the flange, dry the pump and start again.',
      });
    }
    const { motorStartS, speedRevPerS } = found.value;
    const rest = goodSuction(part, motorStartS - REST_END_S, motorStartS - 0.1);
    const restPa = rest.length === 0 ? null : mean([...rest]);
    atmospherePa ??= restPa;
    if (starts.length > 0 && (restPa === null || Math.abs(restPa - (atmospherePa ?? restPa)) > COME_BACK_PA)) {
      leftOut += 1;
      continue;
    }
    starts.push({
      readings: part,
      found: { motorStartS, runningRevPerS: speedRevPerS, oilAtInletS: null, oilAtOutletS: null },
    });
  }
  if (starts.length === 0) {
    return no({ code: 'NO_MOTOR_START', text: 'The shaft never turned: no motor start in the record.' });
  }
  return yes({ starts, leftOut });
}
