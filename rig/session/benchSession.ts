import type { BenchAction } from '../../analysis/guide/guideSetting.ts';
import type { ReadingRow } from '../../analysis/guide/readingWindow.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { RunClosing, RunRecord, ZeroCheck } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { messageOf } from '../errors.ts';
import { type OpenRequest, type Recorder, startRecorder } from '../journal/startRecorder.ts';
import type { PortStatus } from '../serial/portReader.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';
import { analyseStoredRun } from './analyseStoredRun.ts';
import { GuidedRun } from './guidedRun.ts';
import { Listeners } from './listeners.ts';
import { LiveLine } from './liveLine.ts';
import { liveReading } from './liveReading.ts';
import { mountCommand } from './practiceCommands.ts';
import { PracticeHand } from './practiceHand.ts';
import { patienceAt, prepareRun, type StartRun } from './prepareRun.ts';
import { refuseUnlessFree } from './refuseUnlessFree.ts';
import { SessionError } from './sessionErrors.ts';
import type { LiveReading, SessionState } from './sessionState.ts';
import { withCalibration } from './withCalibration.ts';
import { type ZeroConditions, ZeroWatch } from './zeroWatch.ts';

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
  private readonly toldState = new Listeners<SessionState>();
  private readonly toldReadings = new Listeners<readonly LiveReading[]>();
  private readonly toldSealed = new Listeners<RunClosing>();
  private readonly line: LiveLine;
  private benchInForce: BenchRecord;
  private connection: PortStatus = { status: 'waiting', detail: 'not opened yet' };
  private inHand: GuidedRun | null = null;
  private zeroWatch: ZeroWatch | null = null;
  private isStarting = false;
  private isClosing = false;
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
    this.benchInForce = options.bench;
    this.line = new LiveLine(options.bench);
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
        onJournal: (state) => session.inHand?.journalled(state),
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
      practice: this.line.practice(),
      benchId: this.benchInForce.id,
      ...this.line.health(),
      openRun: this.inHand?.state() ?? null,
      lastSealedRunId: this.lastSealedRunId,
      trouble: this.trouble,
    };
  }

  /** The record by which the line is read now. */
  bench(): BenchRecord {
    return this.benchInForce;
  }

  /**
   * Files the bench record with a channel's new calibration, and reads the line by it from now on. An open run keeps the
   * record that it began with, so none may be open.
   *
   * @throws SessionError if a run is open, RecordError if the calibration or the channel is not as it must be
   */
  calibrate(channel: string, calibration: unknown): BenchRecord {
    if (this.inHand !== null) throw new SessionError('RUN_OPEN', 'a run is open: its calibrations stay as they are');
    const record = withCalibration(this.benchInForce, channel, calibration);
    this.benchInForce = this.options.archive.saveBench(record, 'the calibration');
    this.line.useBench(this.benchInForce);
    return this.benchInForce;
  }

  onState(listener: (state: SessionState) => void): () => void {
    return this.toldState.add(listener);
  }

  onReadings(listener: (readings: readonly LiveReading[]) => void): () => void {
    return this.toldReadings.add(listener);
  }

  /** Of each run that is sealed, whoever ended it. */
  onSealed(listener: (closing: RunClosing) => void): () => void {
    return this.toldSealed.add(listener);
  }

  /**
   * Begins a run: its record is whole before the first byte. On a practice bench the run steps itself unless it is done
   * by hand.
   *
   * @throws SessionError if a run is open, the line is not, or the pump cannot be run so
   */
  async startRun(request: StartRun, isByHand = false): Promise<RunRecord> {
    refuseUnlessFree(this.state(), this.isStarting);
    const { archive, port, programVersion } = this.options;
    const bench = this.benchInForce;
    const practice = isByHand ? null : this.line.practice();
    const stepsItself = practice !== null;
    this.isStarting = true;
    try {
      const origin = { archive, bench, portPath: port.path, programVersion };
      const { run, folder, guide } = prepareRun(request, origin, practice && patienceAt(practice.speedUp));
      await this.recording().startRun(folder);
      if (this.line.practice() !== null) this.hand.tell(mountCommand(run.pump));
      this.line.beginRun(run);
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

  /**
   * Takes the zeros while the shaft stands, the valve is open and the tubes are vented; waits a while for rest. The practice
   * bench is first brought there. Nothing is applied yet: withApplied marks channels, and a run carries what its request does.
   *
   * @throws ZeroCheckError where the bench is not at rest, SessionError if a run is open or the line is not
   */
  async takeZeroCheck(conditions: ZeroConditions): Promise<ZeroCheck> {
    refuseUnlessFree(this.state(), this.isStarting);
    this.isStarting = true;
    try {
      this.act([
        { kind: 'setSpeed', speedRevPerS: 0 },
        { kind: 'openSuctionAtPump' },
        { kind: 'emptyAndOil' },
        { kind: 'openValve' },
      ]);
      await this.hand.idle();
      this.zeroWatch = new ZeroWatch(this.benchInForce, conditions, this.line.practice()?.speedUp);
      if (this.isClosing) this.zeroWatch.end();
      return await this.zeroWatch.taken;
    } finally {
      this.zeroWatch = null;
      this.isStarting = false;
    }
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
    this.isClosing = true;
    this.zeroWatch?.end();
    if (this.inHand !== null) await this.stopRun('the program was ended');
    await this.recorder?.close();
    for (const told of [this.toldState, this.toldReadings, this.toldSealed]) told.clear();
  }

  private recording(): Recorder {
    if (this.recorder === null) throw new SessionError('LINE_NOT_OPEN', 'the recorder has not started');
    return this.recorder;
  }

  private take(lines: readonly ReceivedLine[]): void {
    const live: LiveReading[] = [];
    for (const line of lines) {
      this.zeroWatch?.received(line);
      const row = this.line.push(line);
      if (row === null) continue;
      live.push(liveReading(row));
      this.guideBy(row);
    }
    if (live.length > 0) this.toldReadings.tell(live);
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
    if (this.line.practice() !== null) this.hand.act(actions);
  }

  private connected(status: PortStatus): void {
    this.connection = status;
    this.tellState();
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
    this.line.endRun();
    try {
      analyseStoredRun(this.options.archive, runId);
    } catch (error) {
      this.troubled(error);
    }
    this.toldSealed.tell(closing);
    this.tellState();
  }

  private troubled(error: unknown): void {
    this.trouble = messageOf(error);
  }

  private tellState(): void {
    this.toldState.tell(this.state());
  }
}
