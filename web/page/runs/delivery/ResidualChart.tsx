import { speedGroups } from '../../../../analysis/delivery/speedGroups.ts';
import { printRpm } from '../../../../analysis/formatStated.ts';
import type { HoldResult } from '../../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';
import { type DrawnHold, drawnHold } from './drawnHold.ts';

const BAR = unitOf('bar(a)');
const LITRES = unitOf('l/min');

function pointsOf(holds: readonly DrawnHold[]): readonly Point[] {
  return holds.flatMap(({ differentialPressurePa, residualFlowM3PerS: residual }): readonly Point[] =>
    residual === null ? [] : [[differenceFrom(differentialPressurePa.value, BAR), differenceFrom(residual, LITRES)]],
  );
}

/** What the law leaves: measured less fitted flow of each hold. A pattern is what the law does not tell. */
export function ResidualChart({ holds }: { readonly holds: readonly HoldResult[] }) {
  const fitted = holds.filter(({ residualFlowM3PerS }) => residualFlowM3PerS !== null);
  if (fitted.length < 2) return null;
  return (
    <Chart
      title="What the law leaves"
      description={`Measured less fitted flow of ${fitted.length} holds against pressure difference, by speed; the numbers stand in the table of holds`}
      xLabel="pressure difference [bar]"
      yLabel="measured less fitted [l/min]"
      series={speedGroups(fitted.map(drawnHold)).map(
        (group, index): ChartSeries => ({
          label: `${printRpm(group.speedRevPerS)} r/min`,
          style: seriesStyle(index),
          line: [],
          band: [],
          points: pointsOf(group.holds),
          openPoints: [],
        }),
      )}
      yRules={[{ at: 0, words: '' }]}
      note="Without pattern: the law tells all that the holds know. A slope or a bow by speed or pressure is something that is not slip."
    />
  );
}
