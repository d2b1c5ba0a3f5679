import type { CertificateDelivery, CertificateHold, LawBand } from '../../../analysis/certificate/deliverySchema.ts';
import { lawFlow } from '../../../analysis/delivery/slipLaw.ts';
import { type SpeedGroup, speedGroups } from '../../../analysis/delivery/speedGroups.ts';
import { printRpm } from '../../../analysis/formatStated.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { type PlotPoint, setPlot } from './plotFrame.ts';
import type { Sheet } from './sheet.ts';
import { SERIES, type SeriesLook } from './style.ts';

const HEIGHT_PT = 126;
const GAP_PT = 14;

const BAR = unitOf('bar(a)');
const L_PER_MIN = unitOf('l/min');
const PERCENT = unitOf('%');

const bar = (pa: number) => differenceFrom(pa, BAR);
const lPerMin = (m3PerS: number) => differenceFrom(m3PerS, L_PER_MIN);
const percent = (ratio: number) => differenceFrom(ratio, PERCENT);

function lookOf(index: number): SeriesLook {
  return SERIES[index % SERIES.length] ?? SERIES[0];
}

type Group = SpeedGroup<CertificateHold>;

function speedLabel(group: Group): string {
  return `${printRpm(group.speedRevPerS)} r/min`;
}

/** The law as the data hold it for a group; older certificates hold none, and it is spoken from its coefficients. */
function curveOf({ law, bands }: CertificateDelivery, group: Group): LawBand['points'] {
  const band = bands.find(({ speedRevPerS }) => speedRevPerS === group.speedRevPerS);
  if (band !== undefined) return band.points;
  const { derivedCapacityM3PerRev, laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa } = law.coefficients;
  const coefficients = {
    derivedCapacityM3PerRev: derivedCapacityM3PerRev.value,
    laminarSlipM3: laminarSlipM3.value,
    orificeSlipM2: orificeSlipM2.value,
    speedPressureSlipM3PerPa: speedPressureSlipM3PerPa.value,
  };
  return group.holds.map(({ differentialPressurePa: { value: differentialPressurePa } }) => ({
    differentialPressurePa,
    flowM3PerS: lawFlow(coefficients, { ...group, differentialPressurePa }),
    expandedUncertaintyM3PerS: 0,
  }));
}

function pressureAxis(delivery: CertificateDelivery) {
  const highestBar = Math.max(...delivery.holds.map(({ differentialPressurePa }) => bar(differentialPressurePa.value)));
  return { title: 'pressure difference Δp, bar', from: 0, to: 1.04 * highestBar, ticks: 5 };
}

/** Flow against pressure difference: the holds, and the fitted law through them. */
function setFlowPlot(sheet: Sheet, delivery: CertificateDelivery): void {
  const highest = Math.max(...delivery.holds.map(({ flowM3PerS }) => lPerMin(flowM3PerS.value)));
  const inWords = `Delivered flow against pressure difference in ${delivery.holds.length} holds, with the fitted law; the numbers stand in the table of holds.`;
  const flowAxis = { title: 'flow q, l/min: holds, fitted law, its 95 % band', from: 0, to: highest, ticks: 6 };
  setPlot(sheet, HEIGHT_PT, { x: pressureAxis(delivery), y: flowAxis }, inWords, (frame) => {
    const labels: { text: string; y: number; colour: string }[] = [];
    for (const [index, group] of speedGroups(delivery.holds).entries()) {
      const look = lookOf(index);
      const law = curveOf(delivery, group);
      const curve = law.map((at): PlotPoint => [bar(at.differentialPressurePa), lPerMin(at.flowM3PerS)]);
      frame.band(
        law.map((at) => [
          bar(at.differentialPressurePa),
          lPerMin(at.flowM3PerS - at.expandedUncertaintyM3PerS),
          lPerMin(at.flowM3PerS + at.expandedUncertaintyM3PerS),
        ]),
        look.colour,
      );
      frame.curve(curve, look.colour, look.dash);
      for (const hold of group.holds) {
        const at: PlotPoint = [bar(hold.differentialPressurePa.value), lPerMin(hold.flowM3PerS.value)];
        frame.point(at, lPerMin(hold.flowM3PerS.expandedUncertainty), look, hold.leftOut === null);
      }
      const end = curve.at(-1);
      if (end !== undefined) labels.push({ text: speedLabel(group), y: end[1], colour: look.colour });
    }
    frame.endLabels(labels);
  });
}

/** Both volumetric efficiencies against pressure difference. */
function setEfficiencyPlot(sheet: Sheet, delivery: CertificateDelivery): void {
  const values = delivery.holds.flatMap(({ derivedEfficiency, geometricEfficiency }) => [
    percent(derivedEfficiency?.value ?? geometricEfficiency.value),
    percent(geometricEfficiency.value),
  ]);
  const title = 'efficiency, %: filled q/(V_i n), open q/(V_g n)';
  const efficiencyAxis = { title, from: Math.min(...values) - 1, to: Math.max(...values) + 1, ticks: 6 };
  const capacityM3PerRev = delivery.law.coefficients.derivedCapacityM3PerRev.value;
  const inWords =
    'Volumetric efficiency against pressure difference, by derived capacity and by swept volume; the numbers stand in the table of holds.';
  setPlot(sheet, HEIGHT_PT, { x: pressureAxis(delivery), y: efficiencyAxis }, inWords, (frame) => {
    const labels: { text: string; y: number; colour: string }[] = [];
    for (const [index, group] of speedGroups(delivery.holds).entries()) {
      const look = lookOf(index);
      const curve = curveOf(delivery, group).map((at): PlotPoint => {
        const efficiency = at.flowM3PerS / (capacityM3PerRev * group.speedRevPerS);
        return [bar(at.differentialPressurePa), percent(efficiency)];
      });
      frame.curve(curve, look.colour, look.dash);
      for (const { differentialPressurePa, derivedEfficiency, geometricEfficiency } of group.holds) {
        const x = bar(differentialPressurePa.value);
        frame.point([x, percent(geometricEfficiency.value)], 0, look, false);
        if (derivedEfficiency === null) continue;
        const { value, expandedUncertainty } = derivedEfficiency;
        frame.point([x, percent(value)], percent(expandedUncertainty), look, true);
      }
      const end = curve.at(-1);
      if (end !== undefined) labels.push({ text: speedLabel(group), y: end[1], colour: look.colour });
    }
    frame.endLabels(labels);
  });
}

/** Flow and efficiency of a delivery run, side by side. */
export function setDeliveryPlots(sheet: Sheet, delivery: CertificateDelivery): void {
  sheet.together((block) => {
    block.heading(`Delivery, run ${delivery.runId}`);
    block.columns([1, 1], GAP_PT, [
      (column) => setFlowPlot(column, delivery),
      (column) => setEfficiencyPlot(column, delivery),
    ]);
  });
}
