import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Mark, RunClosing } from '../../analysis/records/runRecord.ts';
import { PROJECT_FOLDER } from '../projectFolder.ts';
import type { PortStatus } from '../serial/portReader.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';
import { RecorderError } from './journalErrors.ts';
import type { JournalState } from './journalFile.ts';
import { parseJournalRecord } from './journalRecord.ts';
import { fromRecorder, type RecorderMessage, type RecorderRequest } from './messages.ts';

export type OpenRequest = Omit<Extract<RecorderRequest, { kind: 'open' }>, 'kind' | 'mustExist' | 'practiceModel'> & {
  readonly mustExist?: boolean;
  readonly practiceModel?: Extract<RecorderRequest, { kind: 'open' }>['practiceModel'];
};

export type RecorderListeners = {
  /** Lines in the order they came, a batch every 50 ms; written to the journal before, where a run is open. */
  readonly onLines?: (lines: readonly ReceivedLine[]) => void;
  readonly onStatus?: (status: PortStatus) => void;
  /** The open run's journal, every 50 ms. */
  readonly onJournal?: (state: JournalState) => void;
  /** The run could not go on (code 'JOURNAL'), or the recorder itself ended (code 'RECORDER'). */
  readonly onFatal?: (error: RecorderError, closing: RunClosing | null) => void;
};

export type Recorder = {
  /** The recorder's process, for tests and for the log. */
  readonly processId: number;
  /** Opens a port, in place of the one that was open. Rejects with code 'PORT' if it must exist and does not open. */
  open(request: OpenRequest): Promise<void>;
  /** Starts recording into the folder of a run that was created. */
  startRun(folder: string): Promise<void>;
  mark(text: string): Promise<Mark>;
  stopRun(ending: Extract<RecorderRequest, { kind: 'stopRun' }>['ending'], reason: string): Promise<RunClosing>;
  /** Sends one command line to a practice bench. Rejects with code 'NOT_PRACTICE' on any other port. */
  command(text: string): Promise<void>;
  /** Closes port and open run, and ends the process; may be called again. */
  close(): Promise<void>;
};

const PROCESS_FILE = join(PROJECT_FOLDER, 'rig/journal/recorderProcess.ts');
// Resolved from here: the working directory may be anywhere.
const TSX_URL = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;

type Done = Extract<RecorderMessage, { kind: 'done' }>;
type Waiting = { readonly resolve: (done: Done) => void; readonly reject: (error: Error) => void };

/** Starts the recorder's process. @throws RecorderError (code 'RECORDER') if it does not start */
export async function startRecorder(listeners: RecorderListeners = {}): Promise<Recorder> {
  const child = fork(PROCESS_FILE, [], {
    execArgv: ['--import', TSX_URL],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  const client = new RecorderClient(child, listeners);
  await client.ready;
  return client;
}

class RecorderClient implements Recorder {
  readonly ready: Promise<void>;
  readonly processId: number;
  private readonly waiting = new Map<number, Waiting>();
  private lastNumber = 0;
  private isClosing = false;
  private hasEnded = false;
  private becomeReady: () => void = () => {};
  private failToStart: (error: Error) => void = () => {};

  constructor(
    private readonly child: ChildProcess,
    private readonly listeners: RecorderListeners,
  ) {
    this.processId = child.pid ?? -1;
    this.ready = new Promise((resolve, reject) => {
      this.becomeReady = resolve;
      this.failToStart = reject;
    });
    child.on('message', (message) => this.take(fromRecorder.parse(message)));
    child.once('error', (error) => this.ended(error.message));
    child.once('exit', (code, signal) => this.ended(signal ?? `exit code ${code}`));
  }

  async open({ mustExist = false, practiceModel = null, ...request }: OpenRequest): Promise<void> {
    await this.ask({ kind: 'open', mustExist, practiceModel, ...request });
  }

  async startRun(folder: string): Promise<void> {
    await this.ask({ kind: 'startRun', folder });
  }

  async mark(text: string): Promise<Mark> {
    const { mark } = await this.ask({ kind: 'mark', text });
    if (mark === undefined) throw new RecorderError('RECORDER', 'the recorder answered without the mark');
    return mark;
  }

  async stopRun(ending: Extract<RecorderRequest, { kind: 'stopRun' }>['ending'], reason: string): Promise<RunClosing> {
    const { closing } = await this.ask({ kind: 'stopRun', ending, reason });
    if (closing === undefined) throw new RecorderError('RECORDER', 'the recorder answered without the closing');
    return closing;
  }

  async command(text: string): Promise<void> {
    await this.ask({ kind: 'command', text });
  }

  async close(): Promise<void> {
    if (this.hasEnded) return;
    const exited = once(this.child, 'exit');
    if (!this.isClosing) {
      this.isClosing = true;
      await this.ask({ kind: 'close' }).finally(() => {
        if (this.child.connected) this.child.disconnect();
      });
    }
    await exited;
  }

  private ask(request: RecorderRequest): Promise<Done> {
    if (this.hasEnded || !this.child.connected) {
      return Promise.reject(new RecorderError('RECORDER', 'the recorder has ended'));
    }
    this.lastNumber += 1;
    const number = this.lastNumber;
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject });
      this.child.send({ number, request });
    });
  }

  private take(message: RecorderMessage): void {
    switch (message.kind) {
      case 'ready':
        this.becomeReady();
        break;
      case 'done':
        this.waiting.get(message.number)?.resolve(message);
        this.waiting.delete(message.number);
        break;
      case 'refused':
        this.waiting.get(message.number)?.reject(errorOf(message.refusal));
        this.waiting.delete(message.number);
        break;
      case 'lines':
        this.listeners.onLines?.(linesOf(message.records));
        break;
      case 'status':
        this.listeners.onStatus?.({ status: message.status, detail: message.detail });
        break;
      case 'journal':
        this.listeners.onJournal?.(message.state);
        break;
      case 'fatal':
        this.listeners.onFatal?.(errorOf(message.refusal), message.closing);
        break;
    }
  }

  private ended(how: string): void {
    if (this.hasEnded) return;
    this.hasEnded = true;
    const error = new RecorderError('RECORDER', `the recorder's process ended (${how})`);
    this.failToStart(error);
    for (const { reject } of this.waiting.values()) reject(error);
    this.waiting.clear();
    if (!this.isClosing) this.listeners.onFatal?.(error, null);
  }
}

function errorOf({ code, message }: { readonly code: string; readonly message: string }): RecorderError {
  return new RecorderError(code, message);
}

function linesOf(records: string): readonly ReceivedLine[] {
  return records
    .split('\n')
    .map(parseJournalRecord)
    .filter((line) => line !== null);
}
