import { z } from 'zod';
import { type PumpRecord, pumpRecord } from '../../analysis/records/pumpRecord.ts';
import { type RunClosing, type RunRecord, runClosing, runKind, runLabel } from '../../analysis/records/runRecord.ts';
import type { OutcomeWord } from '../../analysis/result.ts';
import { type Standing, standingWords } from '../certificate/standing.ts';

export const outcomeWord = z.enum(['pass', 'fail', 'not proven', 'measured']);

/** What is listed of the pump that something is about. */
const ofPump = {
  pumpId: z.string(),
  pumpName: z.string(),
  type: pumpRecord.shape.type,
  serialNumber: z.string(),
  /** What it belongs to; empty where nobody said. */
  machine: z.string(),
};

/** A pump as it is listed: the latest version of it. */
const pumpEntry = z.strictObject({
  ...ofPump,
  version: z.int(),
  maker: z.string(),
  owner: z.string(),
});
export type PumpListEntry = z.infer<typeof pumpEntry>;

/** A run as it is listed. */
const runEntry = z.strictObject({
  ...ofPump,
  id: z.string(),
  kind: runKind,
  label: runLabel,
  startedAtUtc: z.string(),
  operator: z.string(),
  /** How it ended; 'open' while it is not sealed. */
  ending: z.enum([...runClosing.shape.ending.options, 'open']),
  /** Null until it was analysed. */
  outcome: outcomeWord.nullable(),
});
export type RunListEntry = z.infer<typeof runEntry>;

/** A certificate as it is listed. */
const certificateEntry = z.strictObject({
  ...ofPump,
  number: z.string(),
  issuedAtUtc: z.string(),
  signatory: z.string(),
  outcome: outcomeWord,
  isSpecimen: z.boolean(),
  /** Whether it still speaks for its pump. */
  standing: z.enum(['issued', 'replaced', 'withdrawn']).default('issued'),
  /** Why it does not, and what took its place; empty where it does. */
  standingNote: z.string().default(''),
});
export type CertificateListEntry = z.infer<typeof certificateEntry>;

/** Something that was found, by what it is. */
export const foundEntry = z.discriminatedUnion('what', [
  z.strictObject({ what: z.literal('pump'), pump: pumpEntry }),
  z.strictObject({ what: z.literal('run'), run: runEntry }),
  z.strictObject({ what: z.literal('certificate'), certificate: certificateEntry }),
]);
export type FoundEntry = z.infer<typeof foundEntry>;

/** What the index holds of a file: how it is listed, and the words by which it is found. */
export type Indexed<Entry> = { readonly entry: Entry; readonly words: readonly string[] };

/** The parts of a certificate by which it is listed and found; the rest of it is passed over. */
export const findableCertificate = z.object({
  number: z.string(),
  title: z.string(),
  outcome: outcomeWord,
  isSpecimen: z.boolean(),
  issuedAtUtc: z.string(),
  signatory: z.string(),
  workshop: z.string(),
  replaces: z.object({ number: z.string(), reason: z.string() }).nullable().default(null),
  pump: z.object({
    id: z.string(),
    name: z.string(),
    type: pumpRecord.shape.type,
    serialNumber: z.string(),
    maker: z.string(),
    owner: z.string(),
    remarks: z.string(),
    duty: z.object({ machine: z.string() }).nullable(),
  }),
  runs: z.array(z.object({ id: z.string(), kind: z.string(), label: z.string(), operator: z.string() })),
  benches: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      instruments: z.array(
        z.object({ instrument: z.string(), calibration: z.object({ reference: z.string() }).nullable() }),
      ),
    }),
  ),
});
export type FindableCertificate = z.infer<typeof findableCertificate>;
type FindablePump = FindableCertificate['pump'];
type FindableInstrument = FindableCertificate['benches'][number]['instruments'][number];

function partOf(pump: FindablePump): Pick<PumpListEntry, keyof typeof ofPump> {
  const { id, name, type, serialNumber, duty } = pump;
  return { pumpId: id, pumpName: name, type, serialNumber, machine: duty?.machine ?? '' };
}

function wordsOfPump({ id, name, type, maker, owner, remarks }: FindablePump): string[] {
  return [id, name, type, maker, owner, remarks];
}

/** An instrument, and the certificate of its calibration: who hears later that one was wrong finds what rests on it. */
function wordsOfInstruments(instruments: readonly FindableInstrument[]): string[] {
  return instruments.flatMap(({ instrument, calibration }) => [instrument, calibration?.reference ?? '']);
}

export function indexedPump(pump: PumpRecord): Indexed<PumpListEntry> {
  const { version, maker, owner } = pump;
  return { entry: { ...partOf(pump), version, maker, owner }, words: wordsOfPump(pump) };
}

export function indexedRun(
  run: RunRecord,
  closing: RunClosing | null,
  outcome: OutcomeWord | null,
): Indexed<RunListEntry> {
  const { id, kind, label, startedAtUtc, operator, pump, bench, oil } = run;
  const ending = closing?.ending ?? 'open';
  return {
    entry: { ...partOf(pump), id, kind, label, startedAtUtc, operator, ending, outcome },
    words: [
      ...[id, kind, label, operator, bench.id, bench.name, oil.name],
      ...wordsOfPump(pump),
      ...wordsOfInstruments(bench.channels),
    ],
  };
}

export function certificateListEntry(
  data: FindableCertificate,
  standing: Standing = { state: 'issued' },
): CertificateListEntry {
  const { number, issuedAtUtc, signatory, outcome, isSpecimen, pump } = data;
  return { ...partOf(pump), number, issuedAtUtc, signatory, outcome, isSpecimen, ...listedStanding(standing) };
}

/** A standing as it is listed. */
export function listedStanding(standing: Standing): Pick<CertificateListEntry, 'standing' | 'standingNote'> {
  return { standing: standing.state, standingNote: standingWords(standing) };
}

export function indexedCertificate(data: FindableCertificate, standing?: Standing): Indexed<CertificateListEntry> {
  const { number, title, signatory, workshop, pump, runs, benches } = data;
  return {
    entry: certificateListEntry(data, standing),
    words: [
      ...[number, title, signatory, workshop],
      ...wordsOfPump(pump),
      ...runs.flatMap(({ id, kind, label, operator }) => [id, kind, label, operator]),
      ...benches.flatMap(({ id, name, instruments }) => [id, name, ...wordsOfInstruments(instruments)]),
    ],
  };
}
