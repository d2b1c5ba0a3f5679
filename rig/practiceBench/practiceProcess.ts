import { parseArgs } from 'node:util';
import { z } from 'zod';
import { createCommandLines } from './commandLines.ts';
import { createPracticeBench } from './createPracticeBench.ts';
import { NoPtyError } from './noPtyError.ts';
import { practicePlant } from './plant.ts';
import { type PracticeMessage, practiceRequest } from './practiceMessages.ts';
import { openPracticePty, type PracticePty } from './practicePty.ts';
import { pumpKind } from './pumpKind.ts';
import { practiceScenario } from './pumpTruth.ts';
import { errorShape } from './sensors.ts';

/** The practice bench as a process of its own: forked, tells its parent the path of its line, ends with its parent. */

const TICK_MS = 5;
/** After a longer stall of this process (a suspended machine) bench time does not try to catch up [s]. */
const LONGEST_CATCH_UP_S = 1;
/** A sentence is about this long [bytes]; two seconds of them may wait for a slow reader. */
const SENTENCE_BYTES = 100;
const QUEUE_S = 2;
const LEAST_QUEUE_BYTES = 2048;

const plantText = z
  .string()
  .transform((text, context): unknown => {
    try {
      return JSON.parse(text);
    } catch {
      context.addIssue({ code: 'custom', message: 'expected JSON' });
      return z.NEVER;
    }
  })
  .pipe(practicePlant);

const optionsSchema = z.strictObject({
  seed: z.coerce.number().int(),
  scenario: practiceScenario,
  'speed-up': z.coerce.number().min(0.1).max(100),
  'readings-per-s': z.coerce.number().min(1).max(1000),
  pump: pumpKind,
  mounting: z.coerce.number().int().positive().optional(),
  'sensor-shape': errorShape,
  plant: plantText,
});

function readOptions(): z.infer<typeof optionsSchema> {
  const { values } = parseArgs({
    options: {
      seed: { type: 'string', default: '1' },
      scenario: { type: 'string', default: 'healthy' },
      'speed-up': { type: 'string', default: '1' },
      'readings-per-s': { type: 'string', default: '50' },
      pump: { type: 'string', default: 'externalGear' },
      mounting: { type: 'string' },
      'sensor-shape': { type: 'string', default: 'normal' },
      plant: { type: 'string', default: '{}' },
    },
  });
  const options = optionsSchema.safeParse(values);
  if (options.success) return options.data;
  process.stderr.write(`practice bench, options: ${z.prettifyError(options.error)}\n`);
  process.exit(2);
}

const options = readOptions();

function tell(message: PracticeMessage, onSent?: () => void): void {
  process.send?.(message, undefined, undefined, () => onSent?.());
}

function end(): void {
  process.exit(0);
}

function serve(pty: PracticePty): void {
  const speedUp = options['speed-up'];
  const bench = createPracticeBench({
    seed: options.seed,
    scenario: options.scenario,
    readingsPerS: options['readings-per-s'],
    speedUp,
    pump: options.pump,
    plant: options.plant,
    sensorShape: options['sensor-shape'],
    ...(options.mounting === undefined ? {} : { mounting: options.mounting }),
  });
  pty.onBytes(createCommandLines(bench.command));

  let lastNs = process.hrtime.bigint();
  setInterval(() => {
    const nowNs = process.hrtime.bigint();
    const passedS = Math.min(Number(nowNs - lastNs) / 1e9, LONGEST_CATCH_UP_S);
    lastNs = nowNs;
    // A full line drops whole sentences; the counter goes on, so the gap shows.
    pty.send(bench.step(passedS * speedUp).join(''));
  }, TICK_MS);

  process.on('message', (message) => {
    if (practiceRequest.safeParse(message).success) tell({ kind: 'truth', truth: bench.truth() });
  });
  tell({ kind: 'ready', path: pty.path });
}

process.on('disconnect', end);
process.on('SIGTERM', end);
// Ctrl-C reaches the whole foreground group; the parent decides when the bench ends.
process.on('SIGINT', () => {});

try {
  const bytesPerS = SENTENCE_BYTES * options['readings-per-s'] * options['speed-up'];
  serve(await openPracticePty(Math.max(LEAST_QUEUE_BYTES, QUEUE_S * bytesPerS)));
} catch (error) {
  if (!(error instanceof NoPtyError)) throw error;
  tell({ kind: 'noPty', why: error.message }, end);
}
