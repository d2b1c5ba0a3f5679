import { median } from 'simple-statistics';
import { CHANNELS } from '../channels.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Finding } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import type { DeliveryAnalysis, DeliveryChecks, FittedRun } from './analyseDelivery.ts';
import { capacitySuspicion, directionFindings } from './capacitySuspicion.ts';
import { negativeSlip } from './negativeSlip.ts';

/** A law that lacks this share of the flow is not fit to judge by; less stands in the budget: a house limit [1]. */
const MOST_LACKING_SHARE = 0.02;

/** A residual below this share of the flow needs no words, rare as it may be among very quiet holds: a house limit [1]. */
const LEAST_RESIDUAL_SHARE = 0.001;

/** A smaller share of the readings needs no words: a hold's last readings may stand in the next change already [1]. */
const WILD_SHARE = 0.02;

const CHECK_CODES: Readonly<Record<keyof DeliveryChecks, string>> = {
  filling: 'NOT_FILLING',
  relief: 'RELIEF_OPENED',
  drift: 'DRIFTED',
  air: 'AIR_IN_OIL',
  hysteresis: 'HYSTERESIS',
};

function checkFindings(checks: DeliveryChecks): readonly Finding[] {
  const read = (name: keyof DeliveryChecks): readonly Finding[] =>
    checks[name].read === 'sign' ? [{ code: CHECK_CODES[name], severity: 'warning', text: checks[name].text }] : [];
  return [...read('filling'), ...read('relief'), ...read('drift'), ...read('air'), ...read('hysteresis')];
}

function fitFindings({ fit }: FittedRun, fitted: readonly HoldState[]): readonly Finding[] {
  const findings: Finding[] = [...fit.merged];
  const { isLacking, text } = fit.lackOfFit;
  if (isLacking === true) {
    const share = fit.betweenHoldsM3PerS / median(fitted.map(({ inletFlowM3PerS }) => Math.abs(inletFlowM3PerS.value)));
    findings.push({ code: 'LACK_OF_FIT', severity: share > MOST_LACKING_SHARE ? 'unfit' : 'warning', text });
  }
  const { standingOut } = fit;
  const hold = fitted.find(({ number }) => number === standingOut?.holdNumber);
  const influence = fit.influences.find(({ holdNumber }) => holdNumber === standingOut?.holdNumber);
  const residualM3PerS = influence?.deletedResidualM3PerS ?? 0;
  if (standingOut !== null && Math.abs(residualM3PerS) > LEAST_RESIDUAL_SHARE * (hold?.inletFlowM3PerS.value ?? 0)) {
    findings.push({ code: 'HOLD_STANDS_OUT', severity: 'warning', text: standingOut.text });
  }
  return findings;
}

function wildFindings(holds: readonly HoldState[]): readonly Finding[] {
  const readingCount = holds.reduce((sum, hold) => sum + hold.readingCount, 0);
  const wildCount = holds.reduce((sum, { wildReadingCount }) => sum + wildReadingCount, 0);
  if (wildCount <= WILD_SHARE * readingCount) return [];
  return [
    {
      code: 'WILD_READINGS',
      severity: 'note',
      text: `${wildCount} single wild values among ${readingCount} readings of the holds were left out of the means. Look for a loose plug or an unscreened cable.`,
    },
  ];
}

function leftOutFindings(holds: readonly HoldState[]): readonly Finding[] {
  return holds.flatMap(({ number, leftOut }): readonly Finding[] =>
    leftOut?.cause === 'person'
      ? [
          {
            code: 'HOLD_EXCLUDED',
            severity: 'note',
            text: `Hold ${number} was taken out of the fit by hand: ${leftOut.reason}`,
          },
        ]
      : [],
  );
}

function movingFindings(holds: readonly HoldState[]): readonly Finding[] {
  const moving = holds.filter(({ leftOut, drifts }) => leftOut === null && drifts.length > 0);
  if (2 * moving.length <= holds.length) return [];
  const labels = [...new Set(moving.flatMap(({ drifts }) => drifts.map(({ channel }) => CHANNELS[channel].label)))];
  return [
    {
      code: 'HOLDS_STILL_MOVING',
      severity: 'note',
      text: `In ${moving.length} of ${holds.length} holds something still moved in one direction, within its limits (${labels.join(', ')}). Wait longer at each set point.`,
    },
  ];
}

/**
 * What must be known of a delivery run beyond its channels: wrong ports, wrong units, what is not slip, how well the law
 * fits.
 *
 * @param analysis - holds and law [-]
 * @param bench - for the units that it declares [-]
 * @param state - states a value with the sources of the run [-]
 * @returns findings, those of the holds first [-]
 */
export function deliveryFindings(
  analysis: DeliveryAnalysis,
  bench: BenchRecord,
  state: (uncertain: Uncertain) => Stated,
): readonly Finding[] {
  const { holds, fitted } = analysis;
  const ofHolds = [
    ...directionFindings(holds),
    ...leftOutFindings(holds),
    ...wildFindings(holds),
    ...movingFindings(holds),
  ];
  if (!fitted.ok) {
    return [...ofHolds, { code: fitted.reason.code, severity: 'unfit', text: fitted.reason.text }];
  }
  const { fit, capacityRatio, checks } = fitted.value;
  const inFit = holds.filter(({ leftOut }) => leftOut === null);
  const unitOfChannel = (channel: 'flow' | 'speed'): string =>
    bench.channels.find((entry) => entry.channel === channel)?.unit ?? (channel === 'flow' ? 'm3/s' : 'rev/s');
  const declared = { flowUnit: unitOfChannel('flow'), speedUnit: unitOfChannel('speed') };
  return [
    ...ofHolds,
    ...capacitySuspicion(capacityRatio.value, state(capacityRatio).expandedUncertainty, declared),
    ...checkFindings(checks),
    ...fitFindings(fitted.value, inFit),
    ...negativeSlip(fit, inFit, state),
  ];
}
