import { combine, type Source, type Uncertain } from '../../uncertainty/source.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { type Course, courseBetween } from './course.ts';
import { findKnee } from './knee.ts';
import { type PipeTop, pipeDropPa } from './pipeTop.ts';
import { type EventSign, type EventWithSources, movedBy, timingSource, unseen } from './startEvent.ts';
import type { SuctionRest } from './suctionRest.ts';

/**
 * From the flange through the dead volume to the outlet, as a share of dead volume over V_g n: oil that pushes the gas before it
 * needs all of it, oil that mixes with it shows after a quarter. Derived here.
 */
const DEAD_VOLUME_TIMES = { middle: 0.65, halfWidth: 0.4 } as const;
/** The swing of gas and motor is over so long after the first suction [s]. */
const SWING_S = 0.5;
/** So long after the delivery the suction still tells [s]. */
const AFTER_DELIVERY_S = 1;
/** A line gives way, and its pressure follows late: common practice, no source [s]. */
const LINE_GIVES_WAY_S = 0.1;
/** Behind the knee the suction falls at most at this share of the slope before it [1]. */
const FLATTENS_TO = 0.5;
/** What a level run adds to the knee is known to about this share [1]. */
const LEVEL_RUN_SHARE = 0.3;
/** A column at the top needs ρ g h, less this share and the channel's noise; and no more than friction may add. */
const COLUMN_LESS = 0.05;
const FRICTION_TIMES = 2;
const FRICTION_SLACK_PA = 500;

type OutletSeen = { readonly atS: Uncertain; readonly from: EventSign };

export type InletSetting = {
  readonly top: PipeTop;
  readonly oil: { readonly densityKgPerM3: number; readonly dynamicViscosityPaS: number };
  /** V_g n. */
  readonly sweptM3PerS: number;
  readonly deadVolumeM3: number;
  readonly suctionLagS: number;
  readonly firstSuctionS: number | null;
  readonly untilS: number;
  /** Null: not seen. */
  readonly oilAtOutlet: OutletSeen | null;
};

/** By the outlet: the pump must first take what is left in its dead volume. */
function byOutlet(outlet: OutletSeen, { deadVolumeM3, sweptM3PerS }: InletSetting): EventWithSources {
  const sweepS = deadVolumeM3 / sweptM3PerS;
  const source = timingSource(
    'timing.deadVolume',
    'oil on its way through the dead volume',
    DEAD_VOLUME_TIMES.halfWidth * sweepS,
    'calibration',
  );
  const atS = combine(outlet.atS.value - DEAD_VOLUME_TIMES.middle * sweepS, [
    { input: outlet.atS, derivative: 1 },
    { input: movedBy(0, [source]), derivative: 1 },
  ]);
  return { event: { seen: true, atS, from: outlet.from }, sources: [source] };
}

/** By the knee of the suction: the column has come to its top, and a level run behind it takes its time. */
function byKnee(suction: Course, rest: SuctionRest, setting: InletSetting): EventWithSources {
  const { top, oil, suctionLagS, firstSuctionS, untilS, sweptM3PerS } = setting;
  if (firstSuctionS === null) return unseen('DID_NOT_HAPPEN', 'The suction never fell: no column rose.');
  const knee = findKnee(courseBetween(suction, firstSuctionS + SWING_S, untilS));
  const notTold = unseen(
    'NOT_TOLD',
    'The suction does not bend as it does where a column arrives: it still fell, or stood lower or higher than the lift asks for.',
  );
  if (knee === null || !(knee.slopeBefore < 0) || !(knee.slopeAfter > FLATTENS_TO * knee.slopeBefore)) return notTold;
  const weightPaPerM = oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2;
  const drawnPa = rest.meanPa - knee.value;
  const columnPa = weightPaPerM * top.heightM;
  const mostPa = columnPa + FRICTION_TIMES * pipeDropPa(top, oil, sweptM3PerS) + FRICTION_SLACK_PA;
  if (!(drawnPa >= (1 - COLUMN_LESS) * columnPa - rest.noisePa && drawnPa <= mostPa)) return notTold;
  // The column rose at dh/dt = −(dp/dt)/(ρ g) before, and no faster than the pump can take.
  const riseM3PerS = Math.min(sweptM3PerS, (-knee.slopeBefore / weightPaPerM) * top.areaM2);
  const levelS = top.volumeBehindM3 / riseM3PerS;
  const sources: readonly Source[] = [
    timingSource('timing.knee', 'bend of the suction', knee.halfWidthS + LINE_GIVES_WAY_S, 'random'),
    timingSource('timing.levelRun', 'oil on its way through a level run', LEVEL_RUN_SHARE * levelS, 'calibration'),
  ];
  const atS = movedBy(knee.atS - suctionLagS + levelS, sources);
  return { event: { seen: true, atS, from: 'suctionPressure' }, sources };
}

/** Largest of the event's own timing errors, to choose by; the budget is made elsewhere. */
function spreadOf({ event, sources }: EventWithSources): number {
  if (!event.seen) return Number.POSITIVE_INFINITY;
  return sources.reduce((most, { standardUncertainty }) => Math.max(most, standardUncertainty), 0);
}

/**
 * Oil at the inlet: where the suction stops falling because the column has come to the pump, or, with a level run between or
 * without a suction channel, by the oil's arrival at the outlet. The one of the two that is known better.
 *
 * @param suction - absolute; empty where there is no channel [s, Pa]
 * @param rest - of that channel; null where it shows none [Pa]
 * @param setting - pipe, oil, pump and the other events [SI]
 * @returns the event [s]
 */
export function findOilAtInlet(suction: Course, rest: SuctionRest | null, setting: InletSetting): EventWithSources {
  const { oilAtOutlet } = setting;
  const untilS = oilAtOutlet === null ? setting.untilS : oilAtOutlet.atS.value + AFTER_DELIVERY_S;
  const knee =
    suction.values.length === 0 || rest === null
      ? unseen(
          'CHANNEL_MISSING',
          'Without the suction channel, or its rest before the start, the column is not seen to arrive.',
        )
      : byKnee(suction, rest, { ...setting, untilS });
  if (oilAtOutlet === null) return knee;
  const outlet = byOutlet(oilAtOutlet, setting);
  const isPlausible = knee.event.seen && knee.event.atS.value <= oilAtOutlet.atS.value;
  return isPlausible && spreadOf(knee) < spreadOf(outlet) ? knee : outlet;
}
