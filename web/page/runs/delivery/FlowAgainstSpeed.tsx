import { levelsOf } from '../../../../analysis/delivery/levels.ts';
import { fittedFlow } from '../../../../analysis/delivery/slipLaw.ts';
import { printFixed } from '../../../../analysis/formatStated.ts';
import type { DeliveryResult, SlipLaw } from '../../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';
import { type DrawnHold, drawnHold } from './drawnHold.ts';

const RPM = unitOf('r/min');
const LITRES = unitOf('l/min');
const BAR = unitOf('bar(a)');

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function pointOf({ speedRevPerS, inletFlowM3PerS }: DrawnHold): Point {
  return [differenceFrom(speedRevPerS.value, RPM), differenceFrom(inletFlowM3PerS.value, LITRES)];
}

/** The law at the lowest pressure and its oil: from standstill up, where it is a straight line. */
function lawFrom(law: SlipLaw, holds: readonly DrawnHold[], fastestRevPerS: number): readonly Point[] {
  const point = {
    differentialPressurePa: meanOf(holds.map(({ differentialPressurePa }) => differentialPressurePa.value)),
    dynamicViscosityPaS: meanOf(holds.map(({ dynamicViscosityPaS }) => dynamicViscosityPaS)),
    densityKgPerM3: meanOf(holds.map(({ densityKgPerM3 }) => densityKgPerM3)),
  };
  return [0, fastestRevPerS].map(
    (speedRevPerS): Point => [
      differenceFrom(speedRevPerS, RPM),
      differenceFrom(fittedFlow(law, { ...point, speedRevPerS }).value, LITRES),
    ],
  );
}

function series(label: string, style: number, line: readonly Point[]): ChartSeries {
  return { label, style: seriesStyle(style), line, band: [], points: [], openPoints: [] };
}

/** Flow against speed at the lowest pressure: a sound pump's holds lie on one straight line, below zero by its slip alone. */
export function FlowAgainstSpeed({ result }: { readonly result: DeliveryResult }) {
  const [lowest = []] = levelsOf(result.holds.map(drawnHold), (hold) => hold.differentialPressurePa.value);
  const fastestRevPerS = lowest.reduce((most, { speedRevPerS }) => Math.max(most, speedRevPerS.value), 0);
  if (lowest.length < 2) return null;
  const law = result.law.ok ? result.law.value : null;
  const filling = result.fitted?.checks.filling;
  const bar = printFixed(
    differenceFrom(meanOf(lowest.map(({ differentialPressurePa }) => differentialPressurePa.value)), BAR),
    2,
  );
  const holds: ChartSeries = {
    ...series(`holds at ${bar} bar`, 0, []),
    points: lowest.filter(({ leftOut }) => leftOut === null).map(pointOf),
    openPoints: lowest.filter(({ leftOut }) => leftOut !== null).map(pointOf),
  };
  const capacityLine: readonly Point[] =
    law === null
      ? []
      : [
          [0, 0],
          [
            differenceFrom(fastestRevPerS, RPM),
            differenceFrom(law.coefficients.derivedCapacityM3PerRev * fastestRevPerS, LITRES),
          ],
        ];
  return (
    <Chart
      title="Flow against speed at the lowest pressure"
      description={`Flow against speed for the holds at ${bar} bar, with the fitted law carried to standstill and the line of derived capacity times speed through zero. ${filling?.text ?? ''}`}
      xLabel="speed [r/min]"
      yLabel="flow [l/min]"
      series={[
        holds,
        ...(law === null
          ? []
          : [
              series('law at that pressure', 1, lawFrom(law, lowest, fastestRevPerS)),
              series('capacity times speed: no slip', 2, capacityLine),
            ]),
      ]}
      yIncludes={[0]}
      note={filling?.text ?? 'Straight, and below zero by the slip alone: the pump fills.'}
    />
  );
}
