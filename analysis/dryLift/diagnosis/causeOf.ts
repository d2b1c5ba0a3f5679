import type { SetUp } from '../../records/runRecord.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import type { PipeTop } from '../events/pipeTop.ts';
import { type Cause, told } from './causes.ts';
import type { FreeColumn } from './freeColumn.ts';
import type { LeakShape } from './leakShape.ts';
import type { HeldSuction, PipeHold } from './pipeHold.ts';
import type { MeanSign, StartSigns } from './startSigns.ts';

/** Thresholds of the signs; where no source is named they are common practice. */
const SIGN = {
  /** So many standard deviations of a mean count as seen. */
  deviations: 6,
  /** Suction above rest by so much is pushed, not drawn [Pa]. */
  pushedPa: 150,
  /** Suction that moved less than this did not move: 4 mm of oil [Pa]. */
  unmovedPa: 35,
  /** Delivery pressure above rest by so much, without flow, is air shut in [Pa]. */
  shutInPa: 3000,
  /** Flow above this share of V_g n is oil [1]. */
  flowShare: 0.04,
  /** A free column must have been due for so long [s]. */
  overdueS: 3,
  /** Less swept than this share of the pipe when the suction stood at the lift: no column can have been lifted [1]. */
  sweptShare: 0.7,
  /** Risen by more than this share over a third of the watch: still rising [1]. */
  risingShare: 0.05,
  /** Rises of the two thirds this much alike: steady, where a leak would slow it down [1]. */
  steadyShare: 0.6,
  /** A column behind a sound pump rises at V_g n over the bore; slower than this share of it, something holds it up [1]. */
  slowShare: 0.5,
  /** A pipe's leak is the cause where half of the suction goes within so many times of what the pump took to draw it [1]. */
  holdTimes: 8,
  holdSlackS: 1,
} as const;

export type CauseEvidence = {
  readonly signs: StartSigns;
  readonly setUp: Pick<SetUp, 'isDeliveryVented'>;
  readonly top: PipeTop;
  readonly oilDensityKgPerM3: number;
  /** V_g n [m³/s]. */
  readonly sweptM3PerS: number;
  readonly wasRisingAtEnd: boolean;
  /** Null: the pipe was not held by itself. */
  readonly hold: PipeHold | null;
  readonly column: FreeColumn | null;
  /** Asked for only where nothing else decides: it takes two simulations. */
  readonly leakShape: () => LeakShape;
};

const isSeen = ({ value, deviation }: MeanSign, least: number): boolean =>
  value > Math.max(least, SIGN.deviations * deviation);
const kPa = (pa: number): string => `${(pa / 1000).toFixed(2)} kPa`;
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** A hold that convicts the pipe: fast enough to be what keeps the column down. */
function convictedPipe(hold: PipeHold | null, { top, oilDensityKgPerM3, sweptM3PerS }: CauseEvidence): Cause | null {
  if (hold === null || hold.verdict !== 'leaks' || hold.halfLostS === null) return null;
  const heightM = hold.drawnPa / (oilDensityKgPerM3 * STANDARD_GRAVITY_M_PER_S2);
  const drawingS = (Math.min(heightM, top.heightM) * top.areaM2) / sweptM3PerS;
  return hold.halfLostS <= SIGN.holdTimes * drawingS + SIGN.holdSlackS ? pipeLeak(hold) : null;
}

function pipeLeak(hold: HeldSuction): Cause {
  return told(
    'suctionPipeLeak',
    `With the flange valve shut the pipe's suction fell from ${kPa(hold.drawnPa)} to ${kPa(hold.leftPa)} in ${hold.heldForS.toFixed(0)} s.`,
  );
}

/** Oil comes, but not enough of it. */
function thinFlow(evidence: CauseEvidence, flow: MeanSign): Cause {
  const { hold } = evidence;
  const sign = `The flow stands at ${percent(flow.value)} of swept volume × speed.`;
  if (hold?.verdict === 'leaks') return pipeLeak(hold);
  if (hold?.verdict === 'holds') return told('airAtTheFoot', `${sign} The pipe by itself holds its suction.`);
  return {
    told: false,
    code: 'HOLD_TEST_NEEDED',
    text: 'Oil comes mixed with air, from the foot or through a leak in the pipe: shut the flange valve under suction and see whether the pipe holds it.',
    sign,
    candidates: ['airAtTheFoot', 'suctionPipeLeak'],
  };
}

/** The suction went on rising until the end. */
function stillRising(evidence: CauseEvidence, thirds: readonly [number, number], end: MeanSign): Cause {
  const { hold, top, oilDensityKgPerM3, sweptM3PerS, signs } = evidence;
  const [earlierPa, laterPa] = thirds;
  const paPerS = laterPa / (0.3 * signs.watchedForS);
  const share = ((paPerS / (oilDensityKgPerM3 * STANDARD_GRAVITY_M_PER_S2)) * top.areaM2) / sweptM3PerS;
  const sign = `The suction stood at ${kPa(end.value)} and still rose, by ${kPa(60 * paPerS)} a minute: ${percent(share)} of what a sound pump lifts.`;
  const pipe = convictedPipe(hold, evidence);
  if (pipe !== null) return pipe;
  if (share < SIGN.slowShare && laterPa >= SIGN.steadyShare * earlierPa) {
    return told('airAtTheFoot', `${sign} It rose steadily: gas came in with the oil, as fast as that rose.`);
  }
  return {
    told: false,
    code: 'WATCH_LONGER',
    text: 'The column was still rising when the motor was stopped: watch longer, within the time that the pump may run dry.',
    sign,
    candidates: ['pumpDoesNotSeal', 'airAtTheFoot'],
  };
}

/** The suction came to rest below what the lift asks for. */
function stalled(evidence: CauseEvidence, end: MeanSign): Cause {
  const { hold } = evidence;
  const sign = `The suction came to rest at ${kPa(end.value)}, below the ${kPa(evidence.oilDensityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * evidence.top.heightM)} that the lift asks for.`;
  const pipe = convictedPipe(hold, evidence);
  if (pipe !== null) return pipe;
  if (hold === null || hold.verdict !== 'holds') {
    const why =
      hold === null
        ? 'Pump and pipe leak alike: shut the flange valve under suction and see whether the pipe holds it.'
        : hold.verdict === 'leaks'
          ? 'The pipe leaks, but too slowly to be all of it: mend the pipe and start again.'
          : hold.text;
    return {
      told: false,
      code: 'HOLD_TEST_NEEDED',
      text: why,
      sign,
      candidates: ['pumpDoesNotSeal', 'reliefNotSeating', 'suctionPipeLeak'],
    };
  }
  const { shape, holeShare, lead } = evidence.leakShape();
  const shapes = `The rise agrees best with ${percent(holeShare)} of the gas coming back as through a hole; with the other kind of leak in the lead its chi-square is larger by ${lead.toFixed(0)}.`;
  if (shape === 'gaps') return told('pumpDoesNotSeal', `${sign} The pipe by itself holds. ${shapes}`);
  if (shape === 'hole') return told('reliefNotSeating', `${sign} The pipe by itself holds. ${shapes}`);
  return {
    told: false,
    code: 'LEAKS_ALIKE',
    text: 'The pipe holds, so the pump leaks, through its gaps or its relief valve: the rise does not tell which. Plug the relief valve and start again.',
    sign: `${sign} ${shapes}`,
    candidates: ['pumpDoesNotSeal', 'reliefNotSeating'],
  };
}

/**
 * The most likely cause of a start that did not prime, by the signs in the order in which one rules out the next.
 *
 * @param evidence - signs of the start, the pipe, and the hold test if one was made [SI]
 * @returns the cause with its sign, or that it cannot be told [-]
 *
 * Source: common practice for the signs; their thresholds stand above.
 */
export function causeOf(evidence: CauseEvidence): Cause {
  const { signs, wasRisingAtEnd, column, setUp } = evidence;
  const { endDrawnPa: end, endFlowShare: flow, endDeliveryRisePa: delivery } = signs;
  if (wasRisingAtEnd) {
    return {
      told: false,
      code: 'WATCH_LONGER',
      text: 'Oil was coming when the motor stopped or the record ended: let it run on for two seconds more.',
      sign: 'The flow stood at what counts as delivery, but not for two seconds yet.',
      candidates: [],
    };
  }
  if (end !== null && isSeen({ ...end, value: -end.value }, SIGN.pushedPa)) {
    return told('wrongRotation', `The suction stood ${kPa(-end.value)} above what it was at rest.`);
  }
  const hasFlow = flow !== null && isSeen(flow, SIGN.flowShare);
  if (delivery !== null && !hasFlow && isSeen(delivery, SIGN.shutInPa)) {
    return told(
      'deliveryNotVented',
      `The delivery pressure rose by ${kPa(delivery.value)} and no flow came to the meter.`,
    );
  }
  if (delivery === null && !setUp.isDeliveryVented && !hasFlow) {
    return told(
      'deliveryNotVented',
      'The set-up says that the delivery is not vented; there is no delivery pressure to see it by.',
    );
  }
  if (flow !== null && hasFlow) return thinFlow(evidence, flow);
  if (end === null || signs.suctionNoisePa === 0) {
    return {
      told: false,
      code: 'NO_SUCTION_CHANNEL',
      text: 'Without a suction channel that lives, and its rest before the start, the cause cannot be told.',
      sign: end === null ? 'No suction pressure.' : 'The suction channel repeats one value.',
      candidates: [],
    };
  }
  if (!isSeen({ ...end, value: Math.abs(end.value) }, SIGN.unmovedPa)) {
    return told(
      'shaftNotDriven',
      `The suction moved by ${(end.value).toFixed(0)} Pa in ${signs.watchedForS.toFixed(0)} s.`,
    );
  }
  if (column !== null && column.arrivesS !== null && signs.watchedForS - column.arrivesS > SIGN.overdueS) {
    const due = `Under the suction that was measured oil should have come ${column.arrivesS.toFixed(1)} s after motor start; none had after ${signs.watchedForS.toFixed(0)} s.`;
    if (column.sweptShare !== null && column.sweptShare < SIGN.sweptShare) {
      return told(
        'pipeBlocked',
        `${due} The suction stood at the lift when the pump had swept only ${percent(column.sweptShare)} of the pipe: no column was lifted.`,
      );
    }
    return {
      told: false,
      code: 'OIL_STANDS_AT_PUMP',
      text: 'Oil should stand at the pump, and it does not take it: gas shut in before the gears, or a pipe blocked late. Vent the suction side at the flange and look whether oil stands there.',
      sign: due,
      candidates: ['pipeBlocked', 'deliveryNotVented'],
    };
  }
  const { beforeDrawnPa: before, middleDrawnPa: middle } = signs;
  if (before !== null && middle !== null) {
    const laterPa = end.value - before.value;
    const noisePa = SIGN.deviations * Math.hypot(end.deviation, before.deviation);
    if (laterPa > Math.max(SIGN.risingShare * end.value, noisePa)) {
      return stillRising(evidence, [before.value - middle.value, laterPa], end);
    }
  }
  return stalled(evidence, end);
}
