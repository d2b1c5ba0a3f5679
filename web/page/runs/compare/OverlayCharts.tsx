import { dimensionlessCurve } from '../../../../analysis/efficiency/dimensionlessView.ts';
import { printRpm } from '../../../../analysis/formatStated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import type { Point } from '../../plots/shapes.ts';
import { flowSeries } from '../delivery/lawSeries.ts';
import { type ComparedRun, runWords } from './comparedRuns.ts';

const SCALE = 1e-6;
const STEPS = 48;

/** Every run in its own style, a line for each speed; the legend names the run once. */
function flowOf(compared: ComparedRun): readonly ChartSeries[] {
  const series = flowSeries(compared.groups, compared.law, compared.view.result.sources);
  return series.map((each, index) => ({
    ...each,
    label:
      index === 0
        ? runWords(compared)
        : `${compared.letter}, ${printRpm(compared.groups[index]?.speedRevPerS ?? 0)} r/min`,
    style: compared.style,
    isListed: index === 0,
  }));
}

function curveOf(compared: ComparedRun): ChartSeries | null {
  const view = compared.view.result.delivery?.fitted?.dimensionless;
  if (view === undefined || view.points.length < 2) return null;
  const numbers = view.points.map(({ speedNumber }) => speedNumber);
  const [first, last] = [Math.min(...numbers), Math.max(...numbers)];
  const percent = (share: number): number => differenceFrom(share, unitOf('%'));
  return {
    label: runWords(compared),
    style: compared.style,
    line: Array.from({ length: STEPS + 1 }, (_, step): Point => {
      const speedNumber = first * (last / first) ** (step / STEPS);
      return [speedNumber / SCALE, percent(dimensionlessCurve(view.slipNumber, speedNumber))];
    }),
    band: [],
    points: view.points
      .filter(({ isInFit }) => isInFit)
      .map(({ speedNumber, correctedEfficiency }): Point => [speedNumber / SCALE, percent(correctedEfficiency)]),
    openPoints: view.points
      .filter(({ isInFit }) => !isInFit)
      .map(({ speedNumber, correctedEfficiency }): Point => [speedNumber / SCALE, percent(correctedEfficiency)]),
  };
}

/** The runs drawn over each other: flow against pressure, and all holds on one curve each. */
export function OverlayCharts({ runs }: { readonly runs: readonly ComparedRun[] }) {
  const flows = runs.flatMap(flowOf);
  const curves = runs.flatMap((run) => curveOf(run) ?? []);
  if (flows.length === 0) return null;
  return (
    <div class="charts" data-testid="overlay">
      <Chart
        title="Flow against pressure"
        description={`Flow against pressure difference of ${runs.length} runs, each in a style of its own, with their laws and bands`}
        xLabel="pressure difference [bar]"
        yLabel="flow [l/min]"
        series={flows}
        note="A line for each speed of a run, at the oil of that run."
      />
      {curves.length > 0 && (
        <Chart
          title="All holds on one curve"
          description={`Volumetric efficiency against the speed number for ${curves.length} runs; the oil does not tell them apart here`}
          xLabel="µ n/Δp [10⁻⁶]"
          yLabel="efficiency [%]"
          series={curves}
          note="Another oil or another speed moves along the curve; another curve is another pump, or another clearance."
        />
      )}
    </div>
  );
}
