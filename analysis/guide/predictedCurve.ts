import { channelErrors } from '../calibration/channelErrors.ts';
import type { ChannelName } from '../channels.ts';
import { sweptVolumeOf } from '../displacement/sweptVolume.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { gapMapOf } from '../slip/gapMapOf.ts';
import { predictDelivery } from '../slip/predictDelivery.ts';
import { predictSlip } from '../slip/predictSlip.ts';
import { sourceTable } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { readingFrom, unitOf } from '../units.ts';
import { deliveryPlan } from './deliveryGuide.ts';
import type { TakenPoint } from './guideState.ts';

/** Flow to expect, with what the strip sheet's measurements leave open [m³/s]. */
type ExpectedFlow = { readonly flowM3PerS: number; readonly expandedUncertaintyM3PerS: number };

/** Flow to expect of a pump before it is run, from its geometry and strip sheet. */
export type PredictedCurve = {
  /** Speeds of the plan, each once, slowest first [rev/s]. */
  readonly speedsRevPerS: readonly number[];
  /** Highest pressure difference of the plan, about [Pa]. */
  readonly highestPa: number;
  readonly expectedAt: (state: Omit<TakenPoint, 'flowM3PerS'>) => Outcome<ExpectedFlow, { readonly text: string }>;
  /** By so much may flow meter and speed pick-up be off at a point, for 95 % [m³/s]. */
  readonly instrumentsM3PerS: (point: Pick<TakenPoint, 'speedRevPerS' | 'flowM3PerS'>) => number;
};

/** The plan's pressures are gauge; the curve is drawn a little beyond them [1]. */
const BEYOND = 1.1;

/** Coverage factor of a normal error for 95 %, rounded as usual. Source: JCGM 100:2008, 6.3.3. */
const COVERAGE = 2;

/** Standard uncertainty of a channel's calibration at a reading, drift since then left out [SI unit of the channel]. */
function calibrationUncertainty(bench: BenchRecord, name: ChannelName, reading: number): number {
  const channel = bench.channels.find(({ channel: of }) => of === name);
  if (channel === undefined) return 0;
  const unit = unitOf(channel.unit);
  return Math.hypot(
    ...channelErrors(channel)
      .filter(({ isPerYear }) => !isPerYear)
      .map(({ standardUncertainty, at }) => standardUncertainty * at(readingFrom(reading, unit, 0))),
  );
}

/**
 * What a delivery run should find if the strip sheet is right: V_i n − slip through its gaps, with drag.
 *
 * @param run - pump, oil, strip sheet and bench of the run [-]
 * @returns the curve; or why there is none: no strip sheet, or one without the shape of its gaps [-]
 */
export function predictedCurve(
  run: Pick<RunRecord, 'pump' | 'oil' | 'stripSheet' | 'bench'>,
): Outcome<PredictedCurve, { readonly text: string }> {
  const { pump, oil, stripSheet, bench } = run;
  if (stripSheet === null) return no({ text: 'there is no strip sheet of this pump' });
  const swept = sweptVolumeOf(pump.geometry);
  if (!swept.ok) return no({ text: swept.reason.text });
  const map = gapMapOf(stripSheet, pump.materials);
  if (!map.ok) return no({ text: map.reason.text });
  const plan = deliveryPlan(pump);
  return yes({
    speedsRevPerS: [...new Set(plan.map(({ speedRevPerS }) => speedRevPerS))].sort((a, b) => a - b),
    highestPa: BEYOND * Math.max(...plan.map(({ deliveryGaugePressurePa }) => deliveryGaugePressurePa)),
    expectedAt: ({ speedRevPerS, differentialPressurePa, oilTemperatureK }) => {
      const state = {
        oil,
        temperatureK: oilTemperatureK,
        differentialPressurePa: Math.max(0, differentialPressurePa),
        speedRevPerS,
      };
      const slip = predictSlip(map.value, state);
      if (!slip.ok) return slip;
      const { flowM3PerS } = predictDelivery(swept.value.sweptVolume, slip.value, speedRevPerS);
      const stated = stateUncertainty(flowM3PerS, sourceTable([...swept.value.sources, ...slip.value.sources]));
      return yes({ flowM3PerS: stated.value, expandedUncertaintyM3PerS: stated.expandedUncertainty });
    },
    instrumentsM3PerS: ({ speedRevPerS, flowM3PerS }) =>
      COVERAGE *
      Math.hypot(
        calibrationUncertainty(bench, 'flow', flowM3PerS),
        swept.value.sweptVolume.value * calibrationUncertainty(bench, 'speed', speedRevPerS),
      ),
  });
}

/** A point beside what was expected of it. */
export type PointAgainstPrediction = {
  readonly expected: ExpectedFlow;
  readonly lies: 'on the curve' | 'below the curve' | 'above the curve';
};

/**
 * Whether a point that was taken lies on the predicted curve, as far as strip sheet, flow meter and speed pick-up let tell.
 * The other instruments are left to the finished run.
 *
 * @param curve - from predictedCurve [-]
 * @param point - means of a hold [SI]
 * @returns where it lies; refused where the parts bind at its temperature [-]
 */
export function againstPrediction(
  curve: PredictedCurve,
  point: TakenPoint,
): Outcome<PointAgainstPrediction, { readonly text: string }> {
  const expected = curve.expectedAt(point);
  if (!expected.ok) return expected;
  const { flowM3PerS, expandedUncertaintyM3PerS } = expected.value;
  const off = point.flowM3PerS - flowM3PerS;
  const isOn = Math.abs(off) <= Math.hypot(expandedUncertaintyM3PerS, curve.instrumentsM3PerS(point));
  return yes({
    expected: expected.value,
    lies: isOn ? 'on the curve' : off < 0 ? 'below the curve' : 'above the curve',
  });
}
