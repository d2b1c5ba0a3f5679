import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunClosing } from '../../analysis/records/runRecord.ts';
import { BenchError } from '../../rig/errors.ts';
import type { CalibrationRequest, LiveReading, OpenRun, SessionState } from '../../web/api.ts';
import type { BenchSession } from '../../web/server/dependencies.ts';
import { closingOf, recordedRun } from './recordedRun.ts';
import { sampleBench } from './samples.ts';

class NoOpenRunError extends BenchError {
  override readonly code = 'NO_OPEN_RUN';
}

const NO_RUN: SessionState = {
  connection: { status: 'open', path: '/dev/pts/7', detail: 'open since 08:00:00 UTC' },
  practice: { speedUp: 20 },
  benchId: 'practice-bench',
  linesPerS: 50.2,
  quietForMs: 12,
  badLineCounts: {},
  openRun: null,
  lastSealedRunId: null,
  trouble: null,
};

/** An open run in the middle of its guide. */
export const OPEN_RUN: OpenRun = {
  id: 'run-now',
  kind: 'delivery',
  pumpName: 'Bearing feed pump, reduction gearbox',
  elapsedS: 192,
  lineCount: 9_610,
  oldestUnsyncedMs: 120,
  guide: {
    sentence: 'Set 900 r/min and 3.5 bar; hold until all channels stand still.',
    stepsAre: 'points',
    stepCount: 12,
    stepsDone: 5,
    target: { speedRevPerS: 15, deliveryGaugePressurePa: 3.5e5 },
    stillness: {
      speed: 'steady',
      deliveryPressure: 'settling',
      flow: 'steady',
      suctionPressure: 'steady',
      oilTemperature: 'rising',
    },
    isFinished: false,
    taken: [
      // 13.88 cm³/rev at 15 rev/s less some slip: invented
      { speedRevPerS: 15, differentialPressurePa: 0.7e5, flowM3PerS: 2.08e-4, oilTemperatureK: 318.2 },
      { speedRevPerS: 15, differentialPressurePa: 1.9e5, flowM3PerS: 2.03e-4, oilTemperatureK: 318.4 },
    ],
  },
  limits: [
    { id: 'fastest', channel: 'speed', atMost: 20.6, atLeast: null, whose: 'the fastest speed of this pump' },
    { id: 'relief', channel: 'deliveryPressure', atMost: 5.4e5, atLeast: null, whose: 'the relief valve' },
  ],
  warnings: [],
};

/** A session that remembers what it was told: no bench, no recorder. For tests of routes and of what the page shows. */
export class RememberingSession implements BenchSession {
  readonly told: string[] = [];
  #state: SessionState = NO_RUN;
  #stateListeners = new Set<(state: SessionState) => void>();
  #readingsListeners = new Set<(readings: readonly LiveReading[]) => void>();
  #run = recordedRun('dryLift', 'healthy').run;

  state(): SessionState {
    return this.#state;
  }

  setState(change: Partial<SessionState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#stateListeners) listener(this.#state);
  }

  pushReadings(readings: readonly LiveReading[]): void {
    for (const listener of this.#readingsListeners) listener(readings);
  }

  get listenerCount(): number {
    return this.#stateListeners.size + this.#readingsListeners.size;
  }

  onState(listener: (state: SessionState) => void): () => void {
    this.#stateListeners.add(listener);
    return () => this.#stateListeners.delete(listener);
  }

  onReadings(listener: (readings: readonly LiveReading[]) => void): () => void {
    this.#readingsListeners.add(listener);
    return () => this.#readingsListeners.delete(listener);
  }

  async startRun(request: Parameters<BenchSession['startRun']>[0]): ReturnType<BenchSession['startRun']> {
    this.told.push(`start ${JSON.stringify(request)}`);
    this.setState({ openRun: { ...OPEN_RUN, id: this.#run.id } });
    return this.#run;
  }

  async takeZeroCheck(request: Parameters<BenchSession['takeZeroCheck']>[0]) {
    this.told.push(`zero ${JSON.stringify(request)}`);
    const entry = { standardUncertainty: 0.001, isApplied: false };
    return {
      zeroCheck: {
        takenAtUtc: '2026-06-01T07:55:00Z',
        channels: [
          { channel: 'flow', offset: 0.012, ...entry },
          { channel: 'deliveryPressure', offset: -0.004, ...entry },
        ],
      },
      unitSymbols: { flow: 'l/min', deliveryPressure: 'bar(g)' },
    };
  }

  async stopRun(reason: string): Promise<RunClosing> {
    if (this.#state.openRun === null) throw new NoOpenRunError('No run is open: there is nothing to stop.');
    this.told.push(`stop ${reason}`);
    this.setState({ openRun: null, lastSealedRunId: this.#run.id });
    return closingOf(this.#run.id);
  }

  async mark(text: string): Promise<void> {
    this.told.push(`mark ${text}`);
  }

  bench(): BenchRecord {
    return sampleBench();
  }

  async calibrate(request: CalibrationRequest) {
    this.told.push(`calibrate ${JSON.stringify(request)}`);
    return sampleBench();
  }

  async commandPractice(text: string): Promise<void> {
    this.told.push(`practice ${text}`);
  }
}
