import { fittedFlow } from '../../../../analysis/delivery/slipLaw.ts';
import type { SpeedGroup } from '../../../../analysis/delivery/speedGroups.ts';
import { printRpm } from '../../../../analysis/formatStated.ts';
import type { SlipLaw } from '../../../../analysis/result.ts';
import type { SourceTable } from '../../../../analysis/uncertainty/source.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { stateUncertainty } from '../../../../analysis/uncertainty/stateUncertainty.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import type { ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';
import type { DrawnHold } from './drawnHold.ts';

const STEPS = 32;
const BAR = unitOf('bar(a)');
const LITRES = unitOf('l/min');
const PERCENT = unitOf('%');

function bar(pressurePa: number): number {
  return differenceFrom(pressurePa, BAR);
}

function speedLabel(group: SpeedGroup<DrawnHold>): string {
  return `${printRpm(group.speedRevPerS)} r/min`;
}

/** The fitted law along the measured pressures at a group's speed and oil; spoken nowhere else. */
function lawAlong(group: SpeedGroup<DrawnHold>, law: SlipLaw, sources: SourceTable) {
  const [low, high] = law.range.differentialPressurePa;
  return Array.from({ length: STEPS + 1 }, (_, step) => {
    const differentialPressurePa = low + ((high - low) * step) / STEPS;
    const flow = fittedFlow(law, { ...group, differentialPressurePa });
    return { differentialPressurePa, flow: stateUncertainty(flow, sources) };
  });
}

function flowPoints(holds: readonly DrawnHold[]): readonly Point[] {
  return holds.map(
    ({ differentialPressurePa, inletFlowM3PerS }): Point => [
      bar(differentialPressurePa.value),
      differenceFrom(inletFlowM3PerS.value, LITRES),
    ],
  );
}

/** Flow against pressure: holds as points, open where they are left out; the law as a line, its 95 % band behind. */
export function flowSeries(
  groups: readonly SpeedGroup<DrawnHold>[],
  law: SlipLaw | null,
  sources: SourceTable,
): readonly ChartSeries[] {
  return groups.map((group, index) => {
    const along = law === null ? [] : lawAlong(group, law, sources);
    return {
      label: speedLabel(group),
      style: seriesStyle(index),
      line: along.map(
        ({ differentialPressurePa, flow }): Point => [bar(differentialPressurePa), differenceFrom(flow.value, LITRES)],
      ),
      band: along.map(({ differentialPressurePa, flow }) => ({
        x: bar(differentialPressurePa),
        low: differenceFrom(flow.value - flow.expandedUncertainty, LITRES),
        high: differenceFrom(flow.value + flow.expandedUncertainty, LITRES),
      })),
      points: flowPoints(group.holds.filter(({ leftOut }) => leftOut === null)),
      openPoints: flowPoints(group.holds.filter(({ leftOut }) => leftOut !== null)),
    };
  });
}

function efficiencyPoints(
  holds: readonly DrawnHold[],
  efficiency: (hold: DrawnHold) => Stated | null,
): readonly Point[] {
  return holds.flatMap((hold) => {
    const stated = efficiency(hold);
    return stated === null ? [] : [[bar(hold.differentialPressurePa.value), differenceFrom(stated.value, PERCENT)]];
  });
}

/** Both efficiencies against pressure: against derived capacity filled, against geometry open. */
export function efficiencySeries(
  groups: readonly SpeedGroup<DrawnHold>[],
  law: SlipLaw | null,
  sources: SourceTable,
): readonly ChartSeries[] {
  return groups.map((group, index) => {
    const along = law === null ? [] : lawAlong(group, law, sources);
    const fitted = group.holds.filter(({ leftOut }) => leftOut === null);
    const theoreticalM3PerS = (law?.coefficients.derivedCapacityM3PerRev ?? 0) * group.speedRevPerS;
    return {
      label: speedLabel(group),
      style: seriesStyle(index),
      line: along.map(
        ({ differentialPressurePa, flow }): Point => [
          bar(differentialPressurePa),
          differenceFrom(flow.value / theoreticalM3PerS, PERCENT),
        ],
      ),
      band: [],
      points: efficiencyPoints(fitted, ({ derivedEfficiency }) => derivedEfficiency),
      openPoints: efficiencyPoints(fitted, ({ geometricEfficiency }) => geometricEfficiency),
    };
  });
}
