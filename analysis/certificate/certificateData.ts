import { z } from 'zod';
import { demand } from '../records/dutyRecord.ts';
import { recordId, sha256Hex, utcInstant } from '../records/fields.ts';
import { handover } from '../records/handover.ts';
import { pumpRecord } from '../records/pumpRecord.ts';
import { runKind } from '../records/runRecord.ts';
import { asBuilt } from './asBuiltSchema.ts';
import { delivery } from './deliverySchema.ts';
import { dryLift, dryLiftSeries, dryLiftTogether } from './dryLiftSchema.ts';
import { budgetedValue, statedValue } from './statedValue.ts';
import { certificateBench, certificateRun, conditions } from './testedSchema.ts';

/** A certificate's number: year of issue and a counter. */
export const certificateNumber = z.string().regex(/^\d{4}-\d{4,6}$/, "a year and a counter, as in '2026-0001'");

const outcomeWord = z.enum(['pass', 'fail', 'not proven', 'measured']);

const previousCertificate = z.strictObject({
  number: certificateNumber,
  jsonSha256: sha256Hex,
  pdfSha256: sha256Hex,
});

/** A notice that was filed in the archive: its file's name and the SHA-256 of its bytes. */
const chainedNotice = z.strictObject({ file: z.string().min(1), jsonSha256: sha256Hex });
export type ChainedNotice = z.infer<typeof chainedNotice>;

const certificateDemand = z.strictObject({
  demand,
  verdict: outcomeWord,
  /** The run that speaks to the demand; null where none does. */
  runId: recordId.nullable(),
  value: budgetedValue.nullable(),
  conformityProbability: z.number().min(0).max(1).nullable(),
  reason: z.string(),
});
export type CertificateDemand = z.infer<typeof certificateDemand>;

/** Everything a certificate says, as plain JSON: SI, the unit in every name. */
export const certificateData = z.strictObject({
  format: z.literal('slipwright.certificate/1'),
  number: certificateNumber,
  title: z.string(),
  outcome: outcomeWord,
  /** From the practice bench: no pump was tested. */
  isSpecimen: z.boolean(),
  sentence: z.string(),
  scope: z.string(),
  issuedAtUtc: utcInstant,
  /** What speaks against that date; empty: nothing that was known when it was filed. */
  dateDoubts: z.array(z.string()).default([]),
  signatory: z.string().min(1),
  workshop: z.string().min(1),
  programVersion: z.string(),
  pump: pumpRecord,
  runs: z.array(certificateRun).min(1),
  benches: z.array(certificateBench).min(1),
  conditions: z.array(conditions).min(1),
  theory: z.strictObject({
    basis: z.string(),
    sweptVolumeM3PerRev: statedValue,
    flowRipple: z.number().nullable(),
    derivedCapacityM3PerRev: statedValue.nullable(),
    capacityRatio: statedValue.nullable(),
  }),
  /** How the pump was built when it was tested; empty: no strip sheet was in force. */
  asBuilt: z.array(asBuilt).default([]),
  /** What was stated on the day it was sealed; null: nothing. */
  handover: handover.nullable().default(null),
  delivery: z.array(delivery),
  dryLift: z.array(dryLift),
  /** Empty: no dry start, or written before series were told. */
  dryLiftSeries: z.array(dryLiftSeries).default([]),
  /** Empty: no two runs that belong together, or written before joint fits were told. */
  dryLiftTogether: z.array(dryLiftTogether).default([]),
  /** Relief and suction runs, in sentences. */
  furtherRuns: z.array(z.strictObject({ runId: recordId, kind: runKind, inWords: z.array(z.string()) })).default([]),
  demands: z.array(certificateDemand),
  decisionRule: z.string(),
  uncertaintyStatement: z.string(),
  findings: z.array(
    z.strictObject({ runId: recordId, code: z.string(), severity: z.enum(['note', 'warning']), text: z.string() }),
  ),
  cautions: z.array(z.string()),
  verification: z.strictObject({ how: z.array(z.string()), cannotKnow: z.array(z.string()) }),
  /** The certificate whose place this one takes, and why; null: it takes none's. */
  replaces: z
    .strictObject({ number: certificateNumber, jsonSha256: sha256Hex, reason: z.string().min(1) })
    .nullable()
    .default(null),
  /** The certificate filed before this one; null for an archive's first. */
  previous: previousCertificate.nullable(),
  /** Notices filed between that one and this, oldest first: none can vanish without breaking the chain. */
  notices: z.array(chainedNotice).default([]),
});
export type CertificateData = z.infer<typeof certificateData>;
export type PreviousCertificate = z.infer<typeof previousCertificate>;

/** Where in an archive's chain something was filed. */
export const chainPlace = { previous: previousCertificate.nullable(), notices: z.array(chainedNotice) };
export type ChainPlace = Pick<CertificateData, 'previous' | 'notices'>;

/** Why a certificate is withdrawn, or another takes its place: a sentence that somebody answers for. */
export const noticeReason = z.string().trim().min(1, 'why').max(500);
