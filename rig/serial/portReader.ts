import { realpathSync } from 'node:fs';
import { SerialPort, type SerialPortMock } from 'serialport';
import { endReadsAtHangUp } from './endReadsAtHangUp.ts';
import { LineSplitter } from './lineSplitter.ts';
import { parsePracticeGreeting } from './practiceGreeting.ts';
import { type LineFraming, monotonicNowUs, type ReceivedLine } from './receivedLine.ts';
import { PortError, PracticeOnlyError } from './serialErrors.ts';

export type PortStatus = {
  readonly status: 'open' | 'waiting' | 'closed';
  /** In words: since when it is open, or why it is not. */
  readonly detail: string;
};

/** The real port, or the mock one that the practice model speaks through where there is no pseudo-terminal. */
export type PortStream = SerialPort | SerialPortMock;

export type PortReaderOptions = {
  readonly path: string;
  readonly baudRate: number;
  readonly wire: LineFraming;
  readonly onLine: (line: ReceivedLine) => void;
  readonly onStatus: (status: PortStatus) => void;
  /** Refuse at once if the first opening fails, instead of waiting for the port to appear. */
  readonly mustExist?: boolean;
  /** Time between two attempts to open. */
  readonly retryDelayMs?: number;
  /** The practice model inside this very process, in place of a real port. */
  readonly practicePort?: () => PortStream;
};

export type PortReader = {
  status(): PortStatus;
  /** Sends one command line. @throws PracticeOnlyError unless a practice bench greeted since this opening, behind a pseudo-terminal or in process */
  sendToPracticeBench(text: string): Promise<void>;
  /** Hands on the half line and closes; may be called again. */
  close(): Promise<void>;
};

/** A pseudo-terminal of Linux or macOS: no cable leads from it to a real bench. */
const PSEUDO_TERMINAL = /^\/dev\/(pts\/\d+|ttys\d+)$/;

/**
 * Opens a port and hands on what it says, line by line, for as long as it is not closed. When the port goes away or is not there
 * yet, it is tried again and again. The program only listens: the one thing it ever writes are commands to a practice bench.
 *
 * @returns the reader, once the first attempt to open has ended [-]
 * @throws PortError if `mustExist` and the port cannot be opened
 */
export async function openPortReader(options: PortReaderOptions): Promise<PortReader> {
  const reader = new Reader(options);
  await reader.start();
  return reader;
}

class Reader implements PortReader {
  private current: PortStatus = { status: 'waiting', detail: 'not opened yet' };
  private port: PortStream | null = null;
  private splitter: LineSplitter | null = null;
  /** Ends when all that this opening received was handed on. */
  private handedOn: Promise<void> = Promise.resolve();
  private retry: NodeJS.Timeout | null = null;
  private wasOpen = false;
  private isClosing = false;
  private hasGreeted = false;
  private mayBePractice = false;

  constructor(private readonly options: PortReaderOptions) {}

  status(): PortStatus {
    return this.current;
  }

  async start(): Promise<void> {
    const failure = await this.tryOpen();
    if (failure !== null && this.options.mustExist) {
      this.isClosing = true;
      throw new PortError(this.options.path, failure.message, { cause: failure });
    }
    if (failure !== null) this.waitForPort(failure.message);
  }

  async sendToPracticeBench(text: string): Promise<void> {
    const { path } = this.options;
    const port = this.port;
    // A write on a closed port would be queued and sent to whatever is opened next.
    if (port === null || !port.isOpen) throw new PracticeOnlyError(path, 'the port is not open');
    if (!this.mayBePractice) throw new PracticeOnlyError(path, 'it is no pseudo-terminal');
    if (!this.hasGreeted)
      throw new PracticeOnlyError(path, 'no practice bench has announced itself since it was opened');
    await new Promise<void>((resolve, reject) => {
      port.write(`${text}\n`, 'latin1', (error) => (error ? reject(new PortError(path, error.message)) : resolve()));
    });
  }

  async close(): Promise<void> {
    this.isClosing = true;
    if (this.retry !== null) clearTimeout(this.retry);
    this.retry = null;
    const port = this.port;
    if (port?.isOpen) await new Promise<void>((resolve) => port.close(() => resolve()));
    await this.handedOn;
    if (this.current.status !== 'closed') this.tell('closed', 'closed by the program');
  }

  /** One attempt; null when the port is open. */
  private async tryOpen(): Promise<Error | null> {
    const { path, baudRate, practicePort } = this.options;
    const port = practicePort === undefined ? realPort(path, baudRate) : practicePort();
    // An error without a listener ends the process; what it means for us arrives as 'close' or in the callback.
    port.on('error', (error: Error) => this.tell(this.current.status, error.message));
    const failure = await new Promise<Error | null>((resolve) => port.open((error) => resolve(error)));
    if (failure !== null) return failure;
    if (this.isClosing) {
      await new Promise<void>((resolve) => port.close(() => resolve()));
      return null;
    }
    this.listen(port);
    return null;
  }

  private listen(port: PortStream): void {
    this.port = port;
    this.hasGreeted = false;
    this.mayBePractice = this.options.practicePort !== undefined || isPseudoTerminal(this.options.path);
    if (this.wasOpen) this.options.onLine({ monotonicUs: monotonicNowUs(), bytes: '', fault: 'reconnected' });
    this.wasOpen = true;
    // A new splitter at each opening: the half line from before must not be glued to the first one now.
    const splitter = new LineSplitter(this.options.wire, (line) => this.take(line));
    this.splitter = splitter;
    port.on('data', (chunk: Buffer) => splitter.feed(chunk, monotonicNowUs()));
    port.once('end', () => port.close());
    port.on('close', (error: Error | null) => this.portClosed(splitter, error));
    this.tell('open', `open since ${new Date().toISOString().slice(11, 19)} UTC`);
  }

  /** 'close' can come twice for one opening: the second finds the splitter gone. */
  private portClosed(splitter: LineSplitter, error: Error | null): void {
    if (this.splitter !== splitter) return;
    this.splitter = null;
    this.port = null;
    this.hasGreeted = false;
    this.handedOn = splitter.end();
    if (this.isClosing) return;
    const why = error === null ? 'the port was closed' : `the port went away (${error.message})`;
    void this.handedOn.then(() => this.waitForPort(why));
  }

  private waitForPort(why: string): void {
    if (this.isClosing) return;
    this.tell('waiting', `${why}; trying again`);
    this.retry = setTimeout(async () => {
      const failure = await this.tryOpen();
      if (failure !== null) this.waitForPort(failure.message);
    }, this.options.retryDelayMs ?? 1000);
  }

  private take(line: ReceivedLine): void {
    if (line.fault === null && parsePracticeGreeting(line.bytes) !== null) this.hasGreeted = true;
    this.options.onLine(line);
  }

  private tell(status: PortStatus['status'], detail: string): void {
    if (this.current.status === status && this.current.detail === detail) return;
    this.current = { status, detail };
    this.options.onStatus(this.current);
  }
}

function realPort(path: string, baudRate: number): SerialPort {
  const port = new SerialPort({ path, baudRate, autoOpen: false });
  port.once('open', () => endReadsAtHangUp(port));
  return port;
}

function isPseudoTerminal(path: string): boolean {
  try {
    return PSEUDO_TERMINAL.test(realpathSync(path));
  } catch {
    // The port was open a moment ago and is gone now: whatever it was, nothing is written to it.
    return false;
  }
}
