import { startRecorder } from '../../../rig/journal/startRecorder.ts';
import { inventedBench } from '../../support/benchRecord.ts';

/** A program that records and is then killed by its test. */
const [, , path = '', folder = ''] = process.argv;
const recorder = await startRecorder({ onLines: () => process.send?.('recorded') });
await recorder.open({ path, baudRate: 115_200, wire: inventedBench().wire });
await recorder.startRun(folder);
process.send?.('open');
