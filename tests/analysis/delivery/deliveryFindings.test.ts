import { describe, expect, it } from 'vitest';
import type { DeliveryAnalysis } from '../../../analysis/delivery/analyseDelivery.ts';
import { deliveryFindings } from '../../../analysis/delivery/deliveryFindings.ts';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { airCheck } from '../../../analysis/notSlip/airCheck.ts';
import { driftCheck } from '../../../analysis/notSlip/driftCheck.ts';
import { fillingCheck } from '../../../analysis/notSlip/fillingCheck.ts';
import { hysteresisCheck } from '../../../analysis/notSlip/hysteresisCheck.ts';
import { reliefBreak } from '../../../analysis/notSlip/reliefBreak.ts';
import { no, yes } from '../../../analysis/outcome.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { PLAN, plannedHolds, sourcesOf } from '../notSlip/plannedRun.ts';

/** What a run of these holds yields, its checks read as a run's are, without any rest. */
function analysisOf(holds: readonly HoldState[], capacityRatio = 1): DeliveryAnalysis {
  const inFit = holds.filter(({ leftOut }) => leftOut === null);
  const fitted = fitSlip(inFit);
  if (!fitted.ok) return { holds, fitted, sources: [] };
  const fit = fitted.value;
  const table = sourcesOf(holds);
  return {
    holds,
    fitted: yes({
      fit,
      range: { speedRevPerS: [9, 18.75], differentialPressurePa: [6e4, 3.9e5], oilTemperatureK: [318.15, 318.15] },
      capacityRatio: exactly(capacityRatio),
      drain: null,
      checks: {
        filling: fillingCheck(holds, table),
        relief: reliefBreak(holds),
        drift: driftCheck(holds, fit.coefficients, table),
        air: airCheck(holds, [], fit.coefficients, table),
        hysteresis: hysteresisCheck(holds, fit.coefficients, table),
      },
    }),
    sources: fit.sources,
  };
}

function findingsOf(analysis: DeliveryAnalysis) {
  const table = { ...sourcesOf(analysis.holds) };
  for (const source of analysis.sources) table[source.id] = source;
  return deliveryFindings(analysis, inventedBench(), (value) => stateUncertainty(value, table));
}

const codesOf = (analysis: DeliveryAnalysis): readonly string[] => findingsOf(analysis).map(({ code }) => code);

/** Three speeds by four pressures twice, so that every set point is repeated. */
const TWICE = [...PLAN.slice(0, 12), ...PLAN.slice(0, 12)];

const sound = plannedHolds(7);

describe('findings of a delivery run', () => {
  it('are none for a sound run', () => {
    expect(codesOf(analysisOf(sound))).toEqual([]);
  });

  it('name the refusal where no law was fitted, and what is known of the holds before it', () => {
    const refused = analysisOf(sound.slice(0, 2));
    expect(findingsOf(refused).at(-1)).toMatchObject({ code: 'TOO_FEW_HOLDS', severity: 'unfit' });
    const text = 'invented';
    expect(findingsOf({ ...refused, fitted: no({ code: 'NO_HOLDS', text }) })).toEqual([
      { code: 'NO_HOLDS', severity: 'unfit', text },
    ]);
  });

  it('count wild readings where they are more than one in fifty', () => {
    // House limit: 5 of a hold's 250 readings are just one in fifty.
    const withWild = (inFirst: number): readonly HoldState[] =>
      sound.map((hold, index) => ({ ...hold, wildReadingCount: index === 0 ? inFirst : 5 }));
    expect(codesOf(analysisOf(withWild(5)))).toEqual([]);
    const [finding] = findingsOf(analysisOf(withWild(6)));
    expect(finding).toMatchObject({ code: 'WILD_READINGS', severity: 'note' });
    expect(finding?.text).toMatch(/^66 single wild values among 3250 readings/);
  });

  it('say which channels still moved, where they did in more than half of the holds', () => {
    const moving = (count: number): readonly HoldState[] =>
      sound.map((hold, index) => ({
        ...hold,
        drifts: index < count ? [{ channel: 'oilTemperature', change: 0.2, standardUncertainty: 0.05 }] : [],
      }));
    expect(codesOf(analysisOf(moving(6)))).toEqual([]);
    const [finding, ...more] = findingsOf(analysisOf(moving(7)));
    expect(more).toEqual([]);
    expect(finding?.code).toBe('HOLDS_STILL_MOVING');
    expect(finding?.text).toMatch(/^In 7 of 13 holds something still moved in one direction.*oil temperature/i);
  });

  it('keep the reason for which a person took a hold out', () => {
    const holds = sound.map(
      (hold): HoldState =>
        hold.number === 3 ? { ...hold, leftOut: { cause: 'person', reason: 'valve knocked' } } : hold,
    );
    expect(findingsOf(analysisOf(holds))).toMatchObject([
      { code: 'HOLD_EXCLUDED', severity: 'note', text: 'Hold 3 was taken out of the fit by hand: valve knocked' },
    ]);
  });

  it('name the hold that the others speak against, and only from a thousandth of its flow up', () => {
    const off = (share: number) => plannedHolds(8, ({ index }) => (index === 5 ? share : 0));
    const found = findingsOf(analysisOf(off(0.04))).find(({ code }) => code === 'HOLD_STANDS_OUT');
    expect(found?.severity).toBe('warning');
    expect(found?.text).toMatch(/Hold 6/);
    // The same run, its residuals shrunk to a hundredth: as unlikely a pattern, and nothing to speak of.
    const quiet = (): DeliveryAnalysis => {
      const analysis = analysisOf(off(0.04));
      if (!analysis.fitted.ok) throw new Error('refused');
      const { value } = analysis.fitted;
      const influences = value.fit.influences.map((influence) => ({
        ...influence,
        deletedResidualM3PerS: (influence.deletedResidualM3PerS ?? 0) / 100,
      }));
      return { ...analysis, fitted: yes({ ...value, fit: { ...value.fit, influences } }) };
    };
    expect(codesOf(quiet())).not.toContain('HOLD_STANDS_OUT');
  });

  it('call a law that lacks something a warning, and unfit from a fiftieth of the flow up', () => {
    // Flow lost at the highest speed, in both passes alike: no scatter, something other than slip.
    const lacking = (share: number) =>
      findingsOf(analysisOf(plannedHolds(9, ({ makings }) => (makings.speedRevPerS > 17 ? share : 0), TWICE))).find(
        ({ code }) => code === 'LACK_OF_FIT',
      );
    expect(lacking(0)).toBeUndefined();
    expect(lacking(0.02)?.severity).toBe('warning');
    expect(lacking(0.1)?.severity).toBe('unfit');
  });

  it('name what is not slip by its check', () => {
    // Flow falls by 4 % through the run; a relief valve passes 8 % at the highest pressure.
    const drifting = plannedHolds(10, ({ index }) => (0.04 * index) / (PLAN.length - 1));
    expect(codesOf(analysisOf(drifting))).toContain('DRIFTED');
    const opening = plannedHolds(11, ({ makings }) => (makings.differentialPressurePa > 3.5e5 ? 0.08 : 0));
    expect(codesOf(analysisOf(opening))).toContain('RELIEF_OPENED');
    const starving = plannedHolds(12, ({ makings }) => (makings.speedRevPerS > 17 ? 0.06 : 0));
    expect(codesOf(analysisOf(starving))).toContain('NOT_FILLING');
  });

  it('suspect the units of a capacity that the geometry cannot explain', () => {
    expect(findingsOf(analysisOf(sound, 60))).toMatchObject([{ code: 'FLOW_UNIT', severity: 'unfit' }]);
  });
});
