import { describe, expect, it } from 'vitest';
import { type Coefficients, lawFlow } from '../../../analysis/delivery/slipLaw.ts';
import { analyseSuctionRun, type SuctionRun } from '../../../analysis/notSlip/suctionRun.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { exactly, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';
import { expectWithinStated } from '../../support/withinStated.ts';
import { INVENTED_LAW } from './plannedRun.ts';

const BAROMETER = { value: 1e5, sensitivities: {} };

/** Holds at suction pressures, delivery at 4 bar absolute; flow of the law times one minus the loss there. */
function suctionHolds(
  suctionsPa: readonly number[],
  lostAt: (suctionPa: number) => number,
  scatter = 0,
  seed = 1,
  law: Coefficients = INVENTED_LAW,
): readonly HoldState[] {
  const next = normal(seed);
  return suctionsPa.map((suctionPa, index) => {
    const point = {
      speedRevPerS: 15,
      differentialPressurePa: 4e5 - suctionPa,
      dynamicViscosityPaS: 0.03,
      densityKgPerM3: 860,
    };
    const flowM3PerS = lawFlow(law, point) * (1 - lostAt(suctionPa)) * (1 + scatter * next());
    const hold = syntheticHold(index + 1, { ...point, flowM3PerS }, scatter * flowM3PerS);
    return { ...hold, suctionPressurePa: exactly(suctionPa), deliveryPressurePa: exactly(4e5) };
  });
}

const STEPS = [1e5, 0.9e5, 0.8e5, 0.7e5, 0.6e5, 0.5e5, 0.4e5];

/** Straight from 0.75 bar down: 1 % lost a 0.05 bar. 1 % is lost at 0.70 bar, 5 % at 0.50 bar. */
const straightLoss = (suctionPa: number): number => Math.max(0, (0.75e5 - suctionPa) / 0.05e5) * 0.01;

function analysed(holds: readonly HoldState[], law: Coefficients | null = INVENTED_LAW) {
  return analyseSuctionRun(holds, law, BAROMETER, sourceTable(holds.flatMap(({ sources }) => sources)));
}

function reachedAt(run: SuctionRun, index: number) {
  const loss = run.losses[index];
  if (loss?.reached !== true) throw new Error(loss?.text);
  return loss;
}

describe('a suction run', () => {
  it('finds the inlet pressures and vacua of 1 % and 5 % loss, slip made alike', () => {
    // Steps laid off the marks so that the crossing is interpolated: 0.68 and 0.48 lie between holds.
    const holds = suctionHolds([1e5, 0.85e5, 0.73e5, 0.63e5, 0.53e5, 0.43e5], straightLoss);
    const run = accepted(analysed(holds));
    expectRelative(reachedAt(run, 0).suctionPressurePa.value, 0.7e5, 1e-9);
    expectRelative(reachedAt(run, 1).suctionPressurePa.value, 0.5e5, 1e-9);
    // Barometer 1.0 bar: 0.30 and 0.50 bar of vacuum.
    expectRelative(reachedAt(run, 0).vacuumPa.value, 0.3e5, 1e-9);
    expectRelative(reachedAt(run, 1).vacuumPa.value, 0.5e5, 1e-9);
    expect(reachedAt(run, 0).text).toContain('1 % of the flow is lost at 70.0');
    expect(run.referenceHoldNumber).toBe(1);
  });

  it('would take slip for loss without the law, and says that it could not make it alike', () => {
    const worn = { ...INVENTED_LAW, laminarSlipM3: 1.2e-11 };
    const holds = suctionHolds(STEPS, () => 0, 0, 1, worn);
    const alike = accepted(analysed(holds, worn));
    expect(alike.losses.map(({ reached }) => reached)).toEqual([false, false]);
    for (const { lost } of alike.points) expect(Math.abs(lost.value)).toBeLessThan(1e-12);
    const without = accepted(analysed(holds, null));
    expect(without.isSlipMadeAlike).toBe(false);
    // 0.6 bar more across C_l/µ = 4e-10 m³/(s Pa): 2.4e-5 m³/s lost of some 8e-5.
    expect(without.points.at(-1)?.lost.value ?? 0).toBeGreaterThan(0.1);
  });

  it('does not mind the order of the holds', () => {
    const holds = suctionHolds(STEPS, straightLoss);
    const [one, other] = [accepted(analysed(holds)), accepted(analysed([...holds].reverse()))];
    expectRelative(reachedAt(other, 0).suctionPressurePa.value, reachedAt(one, 0).suctionPressurePa.value, 1e-12);
  });

  it('holds the true pressures of a loss that bends, within its stated uncertainty, seeds 1 to 40', () => {
    // 5 % at 0.5 bar, growing with the square of the vacuum beyond 0.1 bar: 1 % where 0.4 √0.2 = 0.179 bar are added.
    const bent = (suctionPa: number): number => 0.05 * (Math.max(0, 0.9e5 - suctionPa) / 0.4e5) ** 2;
    for (let seed = 1; seed <= 40; seed += 1) {
      const holds = suctionHolds(STEPS, bent, 5e-4, seed);
      const run = accepted(analysed(holds));
      const table = sourceTable([...holds.flatMap(({ sources }) => sources), ...run.sources]);
      expectWithinStated(stateUncertainty(reachedAt(run, 0).suctionPressurePa, table), 0.9e5 - 0.4e5 * Math.sqrt(0.2));
      expectWithinStated(stateUncertainty(reachedAt(run, 1).suctionPressurePa, table), 0.5e5);
    }
  });

  it('says down to where nothing was lost', () => {
    const run = accepted(analysed(suctionHolds(STEPS, () => 0)));
    expect(run.losses[0]).toMatchObject({ reached: false, downToPa: { value: 0.4e5 } });
    expect(run.losses[0]?.text).toContain('not lost down to 40');
  });

  it('refuses two holds, two speeds and a suction that was left alone', () => {
    const codeOf = (holds: readonly HoldState[]): string => {
      const run = analysed(holds);
      return run.ok ? 'analysed' : run.reason.code;
    };
    expect(codeOf(suctionHolds([1e5, 0.5e5], straightLoss))).toBe('TOO_FEW_HOLDS');
    expect(codeOf([])).toBe('TOO_FEW_HOLDS');
    const [first, ...others] = suctionHolds(STEPS, straightLoss);
    if (first === undefined) throw new Error('no hold');
    expect(codeOf([{ ...first, speedRevPerS: exactly(20) }, ...others])).toBe('SPEED_NOT_HELD');
    expect(codeOf(suctionHolds([1e5, 0.99e5, 0.98e5], straightLoss))).toBe('SUCTION_NOT_VARIED');
  });
});
