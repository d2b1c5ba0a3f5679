import { SerialPortMock } from 'serialport';
import { createCommandLines } from '../practiceBench/commandLines.ts';
import { createPracticeBench } from '../practiceBench/createPracticeBench.ts';
import type { PortStream } from '../serial/portReader.ts';
import { monotonicNowUs } from '../serial/receivedLine.ts';
import type { PracticeModel } from './messages.ts';

const TICK_MS = 10;
/** After a longer stall bench time does not try to catch up [s]. */
const LONGEST_CATCH_UP_S = 1;

/**
 * The practice bench inside this process, behind serialport's mock port: for machines without pseudo-terminals.
 *
 * @param path - name of the mock port [-]
 * @param model - seed, scenario and pace of the bench [SI]
 * @param baudRate - as for a real port; nothing depends on it [baud]
 * @returns a port to be opened like a real one; its bench runs from opening to closing [-]
 */
export function practiceInside(path: string, model: PracticeModel, baudRate: number): PortStream {
  // Not the class that '@serialport/binding-mock' exports to ES modules: SerialPortMock uses another copy of it.
  SerialPortMock.binding.createPort(path, { record: true });
  const port = new SerialPortMock({ path, baudRate, autoOpen: false });
  port.once('open', () => {
    const far = port.port;
    if (far === undefined) return;
    const { seed, scenario, speedUp = 1, readingsPerS = 50 } = model;
    const bench = createPracticeBench({ seed, scenario, speedUp, readingsPerS });
    const obey = createCommandLines(bench.command);
    let heardBytes = 0;
    let lastUs = monotonicNowUs();
    const ticking = setInterval(() => {
      if (far.recording.length > heardBytes) obey(far.recording.toString('latin1', heardBytes));
      heardBytes = far.recording.length;
      const nowUs = monotonicNowUs();
      const passedS = Math.min((nowUs - lastUs) / 1e6, LONGEST_CATCH_UP_S);
      lastUs = nowUs;
      const sentences = bench.step(passedS * speedUp);
      if (sentences.length > 0 && far.isOpen) far.emitData(sentences.join(''));
    }, TICK_MS);
    port.once('close', () => clearInterval(ticking));
  });
  return port;
}
