import { formatStated, printFixed } from '../formatStated.ts';
import type { DiagnosisResult } from '../resultSchema/diagnosisSchema.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { NoPrimingCause } from './diagnosis/causes.ts';

const KPA = unitOf('kPa(a)');

/** The causes by name, where several are in question. */
const CAUSE_NAMES: Readonly<Record<NoPrimingCause, string>> = {
  pumpDoesNotSeal: 'the pump does not seal',
  suctionPipeLeak: 'the suction pipe leaks',
  airAtTheFoot: 'air is drawn in at the foot',
  reliefNotSeating: 'the relief valve does not seat',
  shaftNotDriven: 'shaft or idler is not driven',
  deliveryNotVented: 'the delivery is not vented',
  pipeBlocked: 'the pipe is blocked',
  wrongRotation: 'the pump turns the wrong way',
};

const kPa = (pa: number): string => `${printFixed(differenceFrom(pa, KPA), 2)} kPa`;

function causeWords({ cause }: DiagnosisResult): string {
  if (cause.told) return `Most likely: ${cause.text} Sign: ${cause.sign}`;
  const candidates = cause.candidates.map((code) => CAUSE_NAMES[code]).join(', or ');
  const between = candidates === '' ? '' : ` It may be that ${candidates}.`;
  return `The cause cannot be told. ${cause.text}${between} Sign: ${cause.sign}`;
}

function suctionWords({ ultimateSuctionPa, liftCarriedM, timedOutAfterS }: DiagnosisResult): string {
  const watched = `in ${printFixed(timedOutAfterS, 1)} s`;
  if (ultimateSuctionPa === null || liftCarriedM === null)
    return `No oil came ${watched}; no suction pressure was read.`;
  const suction = formatStated(ultimateSuctionPa, KPA);
  const lift = formatStated(liftCarriedM, unitOf('m'));
  return `The suction came to ${suction.value} ± ${suction.expandedUncertainty} kPa ${watched}, and carries ${lift.value} ± ${lift.expandedUncertainty} m of this oil.`;
}

function holdWords({ hold }: DiagnosisResult): string | null {
  if (hold === null) return null;
  if (hold.verdict === 'cannot tell') return `The hold of the suction pipe does not tell. ${hold.text}`;
  const { drawnPa, leftPa, heldForS } = hold;
  const verdict = hold.verdict === 'holds' ? 'holds' : 'leaks';
  return `The suction pipe by itself ${verdict}: of ${kPa(drawnPa)} were left ${kPa(leftPa)} after ${printFixed(heldForS, 0)} s.`;
}

/** What a start that did not prime says, in sentences; none where it primed. */
export function diagnosisWords(diagnosis: DiagnosisResult | null): readonly string[] {
  if (diagnosis === null) return [];
  return [suctionWords(diagnosis), causeWords(diagnosis), holdWords(diagnosis)].filter((sentence) => sentence !== null);
}
