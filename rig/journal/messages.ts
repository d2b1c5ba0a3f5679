import { z } from 'zod';
import { benchRecord } from '../../analysis/records/benchRecord.ts';
import { mark, runClosing } from '../../analysis/records/runRecord.ts';
import { practiceScenario } from '../practiceBench/pumpTruth.ts';

/** What the recorder's process and the one that started it say to each other. Parsed at both ends. */

const wire = benchRecord.shape.wire;

/** The practice bench inside the recorder, where there is no pseudo-terminal. */
const practiceModel = z.strictObject({
  seed: z.int(),
  scenario: practiceScenario,
  /** Bench seconds in a second of the wall; 1 if absent. */
  speedUp: z.number().min(0.1).max(100).optional(),
  /** Readings in a second of bench time; 50 if absent. */
  readingsPerS: z.number().min(1).max(1000).optional(),
});
export type PracticeModel = z.infer<typeof practiceModel>;

const request = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('open'),
    path: z.string().min(1),
    baudRate: z.int().positive(),
    wire,
    mustExist: z.boolean(),
    practiceModel: practiceModel.nullable(),
  }),
  z.strictObject({ kind: z.literal('startRun'), folder: z.string().min(1) }),
  z.strictObject({ kind: z.literal('mark'), text: z.string() }),
  z.strictObject({
    kind: z.literal('stopRun'),
    ending: runClosing.shape.ending.exclude(['recovered']),
    reason: z.string().min(1),
  }),
  z.strictObject({ kind: z.literal('command'), text: z.string() }),
  z.strictObject({ kind: z.literal('close') }),
]);
export type RecorderRequest = z.infer<typeof request>;

/** To the recorder: a request, numbered so that its answer can be told. */
export const toRecorder = z.strictObject({ number: z.int(), request });

const refusal = z.strictObject({ code: z.string(), message: z.string() });

/** From the recorder. */
export const fromRecorder = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ready') }),
  z.strictObject({
    kind: z.literal('done'),
    number: z.int(),
    closing: runClosing.optional(),
    mark: mark.optional(),
  }),
  z.strictObject({ kind: z.literal('refused'), number: z.int(), refusal }),
  /** Journal records, as they stand in journal.log: what is seen live went through the same grammar. */
  z.strictObject({ kind: z.literal('lines'), records: z.string() }),
  z.strictObject({ kind: z.literal('status'), status: z.enum(['open', 'waiting', 'closed']), detail: z.string() }),
  z.strictObject({
    kind: z.literal('journal'),
    state: z.strictObject({ lineCount: z.int(), byteLength: z.int(), oldestUnsyncedMs: z.number() }),
  }),
  /** The run could not go on; `closing` if it could still be sealed. */
  z.strictObject({ kind: z.literal('fatal'), refusal, closing: runClosing.nullable() }),
]);
export type RecorderMessage = z.infer<typeof fromRecorder>;
