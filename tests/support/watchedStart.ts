import { QUALITY, type Readings } from '../../analysis/readings.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import type { RunRecord, SetUp } from '../../analysis/records/runRecord.ts';
import { decodeJournal } from '../../rig/decode/decodeJournal.ts';
import { formatJournalRecord } from '../../rig/journal/journalRecord.ts';
import {
  createPracticeBench,
  type PracticeBench,
  type PracticeBenchOptions,
} from '../../rig/practiceBench/createPracticeBench.ts';
import type { PumpKind } from '../../rig/practiceBench/pumpKind.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { internalGearPump } from './internalGearPump.ts';
import { practiceBenchRecord, type TimedCommand } from './practiceRun.ts';
import { normal } from './random.ts';
import { samplePump } from './samples.ts';

/** When it really happened, in the elapsed time of the readings; null: never. */
type TrueEvents = {
  readonly motorStartS: number | null;
  /** Suction 0.1 kPa below the atmosphere, and staying there. */
  readonly firstSuctionS: number | null;
  readonly oilAtInletS: number | null;
  /** First flow at the outlet port. */
  readonly oilAtOutletS: number | null;
  /** The criterion met, by the flow at the outlet port. */
  readonly primedAtS: number | null;
};

export type WatchedStart = {
  readonly run: RunRecord;
  readonly readings: Readings;
  readonly truth: TrueEvents;
  readonly bench: PracticeBench;
};

type WatchedOptions = Omit<PracticeBenchOptions, 'speedUp' | 'firstSequence' | 'firstDeviceUs'> & {
  readonly script: readonly TimedCommand[];
  readonly endS: number;
  readonly runSetUp?: SetUp;
  /** A flow meter of one lag in place of the bench's own [s]. */
  readonly flowLagS?: number;
  /** Ends the run so long after the oil came to stay; default: it goes on to its end. */
  readonly afterPrimedS?: number;
};

const STEP_S = 0.002;
const FIRST_SUCTION_PA = 100;
/** A fall that stays so long is one [s]. */
const STAYS_S = 0.1;
/** Of the flow meter of another lag, standard deviation: 0.01 l/min [m³/s]. */
const FLOW_NOISE_M3_PER_S = 0.01 / 60_000;

function pumpRecordOf(kind: PumpKind): PumpRecord {
  if (kind === 'internalGear') return internalGearPump();
  return samplePump(kind === 'screw' ? 'dredger-return-pump' : 'dredger-feed-pump');
}

function withFlow(readings: Readings, flows: readonly number[]): Readings {
  const values = Float64Array.from(flows.slice(0, readings.elapsedS.length));
  const quality = new Uint8Array(values.length).fill(QUALITY.good);
  return { ...readings, channels: { ...readings.channels, flow: { values, quality } } };
}

/** A practice start with its events watched from inside, noise-free. */
export function watchedStart(options: WatchedOptions): WatchedStart {
  const { script, endS, flowLagS, runSetUp = PRACTICE_RUN_SET_UP, afterPrimedS, ...model } = options;
  const bench = createPracticeBench(model);
  const own = practiceBenchRecord('normal');
  const record = {
    ...own,
    channels: own.channels.map((channel) =>
      channel.channel === 'flow' && flowLagS !== undefined ? { ...channel, lagS: flowLagS } : channel,
    ),
  };
  const noise = normal(model.seed + 77);
  const atmospherePa = bench.state().suctionPressurePa;
  const lengthM =
    model.plant?.pipeLegs?.reduce((sum, leg) => sum + leg.lengthM, 0) ??
    model.setUp?.suctionPipeLengthM ??
    PRACTICE_RUN_SET_UP.suctionPipeLengthM;
  const pending = [...script].sort((a, b) => a.atS - b.atS);
  const records: string[] = [];
  const flows: number[] = [];
  let shownM3PerS = 0;
  let firstSuctionS: number | null = null;
  let oilAtInletS: number | null = null;
  let oilAtOutletS: number | null = null;
  for (let atS = 0; atS < endS; ) {
    // A billionth: steps do not add up to whole numbers.
    while (pending[0] !== undefined && pending[0].atS <= atS + 1e-9) bench.command(pending.shift()?.command ?? '');
    const sentences = bench.step(STEP_S);
    const state = bench.state();
    atS = state.elapsedS;
    if (flowLagS !== undefined) {
      shownM3PerS += (1 - Math.exp(-STEP_S / flowLagS)) * (state.meterFlowM3PerS - shownM3PerS);
    }
    for (const sentence of sentences) {
      const bytes = sentence.replace(/\r\n$/, '');
      records.push(formatJournalRecord({ monotonicUs: Math.round(atS * 1e6), bytes, fault: null }));
      if (!bytes.startsWith('#')) flows.push(shownM3PerS + FLOW_NOISE_M3_PER_S * noise());
    }
    // The gas swings on the column: a dip that comes back at once is none.
    const isDrawn = state.suctionPressurePa < atmospherePa - FIRST_SUCTION_PA;
    if (state.speedRevPerS > 0 && isDrawn) firstSuctionS ??= atS;
    else if (firstSuctionS !== null && atS - firstSuctionS < STAYS_S) firstSuctionS = null;
    if (state.columnM >= lengthM - 1e-9) oilAtInletS ??= atS;
    if (state.portFlowM3PerS > 0) oilAtOutletS ??= atS;
    const { primedAtS } = bench.truth().priming;
    if (afterPrimedS !== undefined && primedAtS !== null && atS > primedAtS + afterPrimedS) break;
  }
  const { readings } = decodeJournal(records.join(''), record, runSetUp.barometerPa.value);
  const { motorStartS, primedAtS } = bench.truth().priming;
  const originS = 1 / (model.readingsPerS ?? 50);
  const elapsed = (atS: number | null): number | null => (atS === null ? null : atS - originS);
  const run: RunRecord = {
    format: 'slipwright.run/1',
    id: `practice-drylift-${model.seed}`,
    kind: 'dryLift',
    label: 'as rebuilt',
    startedAtUtc: '2026-06-01T08:00:00Z',
    startedMonotonicUs: 0,
    source: { kind: 'port', path: 'in process' },
    pump: pumpRecordOf(model.pump ?? 'externalGear'),
    bench: record,
    oil: PRACTICE_OIL,
    setUp: runSetUp,
    zeroCheck: null,
    stripSheet: null,
    mounting: 1,
    operator: 'test',
    programVersion: 'test',
  };
  return {
    run,
    bench,
    readings: flowLagS === undefined ? readings : withFlow(readings, flows),
    truth: {
      motorStartS: elapsed(motorStartS),
      firstSuctionS: elapsed(firstSuctionS),
      oilAtInletS: elapsed(oilAtInletS),
      oilAtOutletS: elapsed(oilAtOutletS),
      primedAtS: elapsed(primedAtS),
    },
  };
}
