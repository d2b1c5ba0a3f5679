import { z } from 'zod';
import { certificateNumber, noticeReason } from '../../analysis/certificate/certificateData.ts';
import { recordId } from '../../analysis/records/fields.ts';
import { handover } from '../../analysis/records/handover.ts';
import { oilRecord } from '../../analysis/records/oilRecord.ts';
import { holdExclusion, runKind, runLabel, setUp, zeroCheck } from '../../analysis/records/runRecord.ts';
import { testDayStepId } from '../../analysis/records/testDayEntry.ts';
import { findCriteria } from '../../rig/archive/findCriteria.ts';

/** What the page may send, parsed at the edge. */

export const startRunRequest = z.strictObject({
  kind: runKind,
  pumpId: recordId,
  label: runLabel,
  operator: z.string().trim().min(1, 'who runs the bench').max(100),
  oil: oilRecord,
  setUp,
  zeroCheck: zeroCheck.nullable().default(null),
  isByHand: z.boolean().default(false),
});

export const zeroCheckRequest = z.strictObject({
  barometerPa: z.number().positive(),
  oilDensityKgPerM3: z.number().min(700).max(1200),
});

export const stopRunRequest = z.strictObject({ reason: z.string().trim().min(1).max(200) });

export const markRequest = z.strictObject({ text: z.string().trim().min(1, 'what happened').max(500) });

/** The server says when. */
export const excludeHoldRequest = holdExclusion.omit({ atUtc: true }).extend({
  person: z.string().trim().min(1, 'who takes it out').max(100),
  reason: z.string().trim().min(1, 'why').max(500),
});

/** One line of printable ASCII: what goes to the practice bench. */
export const practiceRequest = z.strictObject({
  command: z.string().regex(/^[\x20-\x7e]{1,120}$/, 'one line of printable ASCII, 120 characters at most'),
});

const signatory = z.string().trim().min(1, 'who signs').max(100);

export const fileCertificateRequest = z.strictObject({
  runIds: z.array(recordId).min(1).max(20),
  signatory,
  replaces: z.strictObject({ number: certificateNumber, reason: noticeReason }).optional(),
  handover: handover.optional(),
  paper: z.enum(['A4', 'letter']).optional(),
});

export const withdrawCertificateRequest = z.strictObject({ signatory, reason: noticeReason });

/** A certificate takes about 200 kB. */
export const MOST_DROPPED_BYTES = 32 * 1024 * 1024;

export const verifyRequest = z.strictObject({
  files: z
    .array(z.strictObject({ name: z.string().min(1).max(255), base64: z.base64() }))
    .min(1, 'a file to be verified')
    .max(100),
});

/** The server says when. What a step needs is checked by the archive. */
export const testDayRequest = z.strictObject({
  person: z.string().trim().min(1, 'who did it').max(100),
  step: testDayStepId.nullable(),
  did: z.enum(['begun', 'done', 'skipped', 'undone']),
  note: z.string().trim().max(500),
});

/** A record as the page wrote it; the archive reads it by its schema and names what is wrong. */
export const looseRecord = z.record(z.string(), z.unknown());

/** The bench record's schema reads the calibration. */
export const calibrationRequest = z.strictObject({ channel: z.string(), calibration: z.unknown() });

/** The criteria as a form sends them: text, and an empty field is none. */
export const findRequest = z.preprocess(
  (query) =>
    typeof query !== 'object' || query === null
      ? query
      : Object.fromEntries(
          Object.entries(query)
            .filter(([, value]) => value !== '')
            .map(([key, value]) => [key, key === 'page' || key === 'pageSize' ? Number(value) : value]),
        ),
  findCriteria,
);

/** A stretch of a run to be drawn, from the address: begin, end (the run's own where it is not named), dots across. */
export const windowRequest = z
  .strictObject({
    from: z.coerce.number().default(0),
    to: z.coerce.number().optional(),
    dots: z.coerce.number().int().min(1).max(4000),
  })
  .refine(({ from, to }) => to === undefined || to > from, 'the stretch ends before it begins');
