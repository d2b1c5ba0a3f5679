import { EventEmitter } from 'node:events';
import type { ReadingRow } from '../../analysis/guide/readingWindow.ts';
import type { BenchAction } from '../../analysis/guide/runGuide.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunClosing, RunRecord } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { createLineDecoder, type LineDecoder } from '../decode/lineDecoder.ts';
import { messageOf } from '../errors.ts';
import type { JournalState } from '../journal/journalFile.ts';
import { type OpenRequest, type Recorder, startRecorder } from '../journal/startRecorder.ts';
import type { PortStatus } from '../serial/portReader.ts';
import { monotonicNowUs, type ReceivedLine } from '../serial/receivedLine.ts';
import { analyseStoredRun } from './analyseStoredRun.ts';
import { GuidedRun } from './guidedRun.ts';
import { LineHealth } from './lineHealth.ts';
import { liveReading } from './liveReading.ts';
import { PracticeHand } from './practiceHand.ts';
import { prepareRun, type StartRun } from './prepareRun.ts';
import { readingRowOf } from './readingRowOf.ts';
import { SessionError } from './sessionErrors.ts';
import type { LiveReading, SessionState } from './sessionState.ts';

/** Gauge pressures are made absolute with this until a run states its own barometer: ISO 2533 at sea level [Pa]. */
const BAROMETER_BEFORE_RUN_PA = 101325;

/** State is told this often while a run is open or the line speaks [ms]. */
const TELL_STATE_MS = 250;

export type BenchSessionOptions = {
  readonly archive: Archive;
  readonly bench: BenchRecord;
  readonly port: Pick<OpenRequest, 'path' | 'practiceModel' | 'mustExist'>;
  readonly programVersion: string;
};

/** One bench, one line, one run at a time: what page and command line both stand on. */
export class BenchSession {
  private readonly events = new EventEmitter();
  private readonly health = new LineHealth();
  private connection: PortStatus = { status: 'waiting', detail: 'not opened yet' };
  private practice: { readonly speedUp: number } | null = null;
  private decoder: LineDecoder;
  private inHand: GuidedRun | null = null;
  private isStarting = false;
  private stopping: Promise<RunClosing> | null = null;
  private lastSealedRunId: string | null = null;
  private trouble: string | null = null;
  private recorder: Recorder | null = null;
  private readonly hand = new PracticeHand(
    (command) => this.commandPractice(command),
    (error) => this.troubled(error),
  );
  private readonly telling: NodeJS.Timeout;

  private constructor(private readonly options: BenchSessionOptions) {
    this.decoder = createLineDecoder(options.bench, BAROMETER_BEFORE_RUN_PA);
    this.telling = setInterval(() => this.tellState(), TELL_STATE_MS);
  }

  /**
   * Starts the recorder's process and opens the line.
   *
   * @throws PortError if the port must exist and cannot be opened
   */
  static async open(options: BenchSessionOptions): Promise<BenchSession> {
    const session = new BenchSession(options);
    try {
      session.recorder = await startRecorder({
        onLines: (lines) => session.take(lines),
        onStatus: (status) => session.connected(status),
        onJournal: (state) => session.journalled(state),
        onFatal: (error, closing) => session.fatal(error.message, closing),
      });
      const { baudRate } = options.bench.wire;
      await session.recorder.open({ ...options.port, baudRate, wire: options.bench.wire });
      return session;
    } catch (error) {
      await session.close();
      throw error;
    }
  }

  state(): SessionState {
    return {
      connection: { ...this.connection, path: this.options.port.path },
      practice: this.practice,
      benchId: this.options.bench.id,
      linesPerS: this.health.linesPerS(monotonicNowUs()),
      badLineCounts: this.health.badLineCounts(),
      openRun: this.inHand?.state() ?? null,
      lastSealedRunId: this.lastSealedRunId,
      trouble: this.trouble,
    };
  }

  onState(listener: (state: SessionState) => void): () => void {
    this.events.on('state', listener);
    return () => this.events.off('state', listener);
  }

  onReadings(listener: (readings: readonly LiveReading[]) => void): () => void {
    this.events.on('readings', listener);
    return () => this.events.off('readings', listener);
  }

  /** The closing of each run that is sealed, whoever ended it. */
  onSealed(listener: (closing: RunClosing) => void): () => void {
    this.events.on('sealed', listener);
    return () => this.events.off('sealed', listener);
  }

  /**
   * Begins a run: its record is whole before the first byte. On a practice bench the run steps itself unless it is done
   * by hand.
   *
   * @throws SessionError if a run is open, the line is not, or the pump cannot be run so
   */
  async startRun(request: StartRun, isByHand = false): Promise<RunRecord> {
    if (this.inHand !== null) throw new SessionError('RUN_OPEN', `run ${this.inHand.run.id} is open: stop it first`);
    if (this.isStarting) throw new SessionError('RUN_OPEN', 'a run is just being started');
    if (this.connection.status !== 'open') {
      throw new SessionError(
        'LINE_NOT_OPEN',
        `the line ${this.options.port.path} is not open: ${this.connection.detail}`,
      );
    }
    const { archive, bench, port, programVersion } = this.options;
    const stepsItself = this.practice !== null && !isByHand;
    this.isStarting = true;
    try {
      const origin = { archive, bench, portPath: port.path, programVersion };
      const { run, folder, guide } = prepareRun(request, origin, stepsItself);
      await this.recording().startRun(folder);
      this.decoder = createLineDecoder(bench, run.setUp.barometerPa.value);
      this.inHand = new GuidedRun(run, guide, stepsItself);
      if (stepsItself) this.act(guide.begin());
      this.tellState();
      return run;
    } finally {
      this.isStarting = false;
    }
  }

  /** Ends the open run and analyses it. @throws SessionError if none is open */
  stopRun(reason: string, ending: 'completed' | 'stopped' = 'stopped'): Promise<RunClosing> {
    if (this.stopping !== null) return this.stopping;
    if (this.inHand === null) return Promise.reject(new SessionError('NO_RUN', 'no run is open'));
    const { run, stepsItself } = this.inHand;
    this.stopping = this.recording()
      .stopRun(ending, reason)
      .then((closing) => {
        if (stepsItself) this.act([{ kind: 'setSpeed', speedRevPerS: 0 }]);
        this.sealed(run.id, closing);
        return closing;
      })
      .finally(() => {
        this.stopping = null;
      });
    return this.stopping;
  }

  async mark(text: string): Promise<void> {
    if (this.inHand === null) throw new SessionError('NO_RUN', 'no run is open to be marked');
    await this.recording().mark(text);
  }

  /** Sends a command to the practice bench. Rejects with code 'NOT_PRACTICE' on any other line: nothing is ever written to it. */
  async commandPractice(text: string): Promise<void> {
    await this.recording().command(text);
  }

  /** Ends the open run, if any, and everything this session started. */
  async close(): Promise<void> {
    clearInterval(this.telling);
    if (this.inHand !== null) await this.stopRun('the program was ended');
    await this.recorder?.close();
    this.events.removeAllListeners();
  }

  private recording(): Recorder {
    if (this.recorder === null) throw new SessionError('LINE_NOT_OPEN', 'the recorder has not started');
    return this.recorder;
  }

  private take(lines: readonly ReceivedLine[]): void {
    const live: LiveReading[] = [];
    for (const line of lines) {
      const decoded = this.decoder.push(line);
      this.health.received(line, decoded);
      if (decoded.kind === 'note' && decoded.practice !== null) this.practice = decoded.practice;
      if (decoded.kind === 'reconnected') this.practice = null;
      if (decoded.kind !== 'reading') continue;
      const row = readingRowOf(decoded.row);
      live.push(liveReading(row));
      this.guideBy(row);
    }
    if (live.length > 0) this.events.emit('readings', live);
  }

  /** Hands a reading to the open run, and does what its guide says where it steps itself. */
  private guideBy(row: ReadingRow): void {
    const run = this.inHand;
    if (run === null) return;
    const actions = run.received(row);
    if (run.stepsItself) this.act(actions);
    if (!run.isOver() || this.stopping !== null) return;
    this.stopRun('all steps of the guide are done', 'completed').catch((error: unknown) => this.troubled(error));
  }

  private act(actions: readonly BenchAction[]): void {
    if (this.practice !== null) this.hand.act(actions);
  }

  private connected(status: PortStatus): void {
    this.connection = status;
    this.tellState();
  }

  private journalled(state: JournalState): void {
    this.inHand?.journalled(state);
  }

  private fatal(message: string, closing: RunClosing | null): void {
    this.trouble = message;
    const run = this.inHand;
    if (run === null) return;
    if (closing === null) this.inHand = null;
    else this.sealed(run.run.id, closing);
  }

  private sealed(runId: string, closing: RunClosing): void {
    this.inHand = null;
    this.lastSealedRunId = runId;
    try {
      analyseStoredRun(this.options.archive, runId);
    } catch (error) {
      this.troubled(error);
    }
    this.events.emit('sealed', closing);
    this.tellState();
  }

  private troubled(error: unknown): void {
    this.trouble = messageOf(error);
  }

  private tellState(): void {
    this.events.emit('state', this.state());
  }
}
