import type { RunClosing } from '../../analysis/records/runRecord.ts';
import { codeOf, messageOf } from '../errors.ts';
import { openPortReader, type PortReader } from '../serial/portReader.ts';
import { parsePracticeGreeting } from '../serial/practiceGreeting.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';
import { NoRunError } from './journalErrors.ts';
import { formatJournalRecord } from './journalRecord.ts';
import { type RecorderMessage, type RecorderRequest, toRecorder } from './messages.ts';
import { practiceInside } from './practiceInside.ts';
import { RunRecording } from './runRecording.ts';

/**
 * The recorder: a process of its own, so that nothing that the rest of the program does stands between the port and the
 * journal. Forked by startRecorder.
 */

/** How often what was received is told to the parent. */
const TELL_INTERVAL_MS = 50;

let reader: PortReader | null = null;
let recording: RunRecording | null = null;
let untold = '';
/** The last greeting of a practice bench since the port was opened. */
let greeting: ReceivedLine | null = null;

function tell(message: RecorderMessage): void {
  // Whoever listened may be gone between the question and the answer: that is no error of the recorder's.
  if (process.connected) process.send?.(message, undefined, undefined, () => {});
}

function refusalOf(error: unknown): { code: string; message: string } {
  return { code: codeOf(error) ?? 'RECORDER', message: messageOf(error) };
}

function take(line: ReceivedLine): void {
  if (line.fault === 'reconnected') greeting = null;
  else if (line.fault === null && parsePracticeGreeting(line.bytes) !== null) greeting = line;
  try {
    recording?.append(line); // before anything else sees it
  } catch (error) {
    fail(error);
  }
  untold += formatJournalRecord(line);
}

function tellWhatCame(): void {
  const records = untold;
  untold = '';
  if (records !== '') tell({ kind: 'lines', records });
  if (recording !== null) tell({ kind: 'journal', state: recording.state() });
}

/** The journal cannot go on: what was written stays, and the run is sealed as failed if the disk still allows that. */
function fail(error: unknown): void {
  if (recording === null) return;
  const failed = recording;
  recording = null;
  tellWhatCame();
  let closing: RunClosing | null = null;
  try {
    closing = failed.close('failed', messageOf(error));
  } catch {
    // Left unsealed: the archive's next start finds it cut off and recovers it.
  }
  tell({ kind: 'fatal', refusal: refusalOf(error), closing });
}

function openRun(): RunRecording {
  if (recording === null) throw new NoRunError('no run is being recorded');
  return recording;
}

async function answer(
  request: RecorderRequest,
): Promise<{ closing?: RunClosing; mark?: ReturnType<RunRecording['mark']> }> {
  switch (request.kind) {
    case 'open': {
      await reader?.close();
      greeting = null;
      const { path, baudRate, wire, mustExist, practiceModel } = request;
      reader = await openPortReader({
        path,
        baudRate,
        wire,
        mustExist,
        onLine: take,
        onStatus: (status) => tell({ kind: 'status', ...status }),
        ...(practiceModel === null ? {} : { practicePort: () => practiceInside(path, practiceModel, baudRate) }),
      });
      return {};
    }
    case 'startRun':
      if (recording !== null) throw new NoRunError(`run ${recording.run.id} is being recorded: stop it first`);
      recording = new RunRecording(request.folder, fail);
      // However short the run, its journal says that a practice bench wrote it.
      if (greeting !== null) recording.append(greeting);
      return {};
    case 'mark':
      return { mark: openRun().mark(request.text) };
    case 'stopRun': {
      const ended = openRun();
      recording = null;
      tellWhatCame();
      return { closing: ended.close(request.ending, request.reason) };
    }
    case 'command':
      if (reader === null) throw new NoRunError('no port was opened');
      await reader.sendToPracticeBench(request.text);
      return {};
    case 'close':
      await closeAll('the recorder was closed');
      return {};
  }
}

async function closeAll(reason: string): Promise<void> {
  await reader?.close();
  reader = null;
  tellWhatCame();
  const ended = recording;
  recording = null;
  ended?.close('stopped', reason);
}

async function endProcess(reason: string): Promise<void> {
  try {
    await closeAll(reason);
  } finally {
    process.exit(0);
  }
}

process.on('message', (message) => {
  const { number, request } = toRecorder.parse(message);
  answer(request).then(
    (outcome) => tell({ kind: 'done', number, ...outcome }),
    (error: unknown) => tell({ kind: 'refused', number, refusal: refusalOf(error) }),
  );
});
process.on('disconnect', () => void endProcess('the program that recorded went away'));
process.on('SIGTERM', () => void endProcess('the recorder was told to end'));
// Ctrl-C reaches the whole foreground group: the parent decides what becomes of the run.
process.on('SIGINT', () => {});
setInterval(tellWhatCame, TELL_INTERVAL_MS);
tell({ kind: 'ready' });
