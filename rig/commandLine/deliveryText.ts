import { printRpm } from '../../analysis/formatStated.ts';
import type { DutyOutlook, Fitted, HoldResult, RunResult } from '../../analysis/result.ts';
import { differenceFrom, ICE_POINT_K, unitOf } from '../../analysis/units.ts';
import { budgetLines, printed } from './printed.ts';

const NAME_WIDTH = 26;

function line(name: string, value: string): string {
  return `  ${name.padEnd(NAME_WIDTH)}${value}`;
}

function holdLines(holds: readonly HoldResult[]): string[] {
  const out = holds.filter(({ leftOut }) => leftOut !== null);
  return [
    `${holds.length} holds${out.length === 0 ? '' : `, ${out.length} of them not in the fit:`}`,
    ...out.map(({ number, leftOut }) => `  hold ${number}: ${leftOut?.reason}`),
  ];
}

function speedWords(found: DutyOutlook['slowestHoldingPressure']): string {
  if (!found.ok) return found.reason.text;
  const { speedRevPerS, beyond } = found.value;
  return `${printed(speedRevPerS, 'r/min')}${beyond.length === 0 ? '' : ', beyond what was measured'}`;
}

function hottestWords({ hottestOil }: DutyOutlook): string {
  const celsius = (kelvin: number): string => `${(kelvin - ICE_POINT_K).toFixed(0)} °C`;
  switch (hottestOil.kind) {
    case 'limit':
      return `${printed(hottestOil.temperatureK, 'degC')}${hottestOil.beyond.length === 0 ? '' : ', beyond what was measured'}`;
    case 'neverFails':
      return `meets the demand up to ${celsius(hottestOil.upToK)}`;
    case 'alwaysFails':
      return `does not meet the demand even at ${celsius(hottestOil.fromK)}`;
    case 'partsBind':
      return `parts bind at ${celsius(hottestOil.atK)} before the demand fails: ${hottestOil.reason.text}`;
  }
}

function testOilWords({ testOil }: DutyOutlook): string {
  if (!testOil.ok) return testOil.reason.text;
  const { grade, matchingTemperatureK, uncertaintyRatio } = testOil.value;
  const effect =
    uncertaintyRatio < 1
      ? `would take ${(100 * (1 - uncertaintyRatio)).toFixed(0)} % off the uncertainty of the flow`
      : `would add ${(100 * (uncertaintyRatio - 1)).toFixed(0)} % to the uncertainty of the flow`;
  return `${grade} has the hot oil's viscosity at ${(matchingTemperatureK - ICE_POINT_K).toFixed(0)} °C; it ${effect}`;
}

function outlookLines(outlook: DutyOutlook, index: number, all: readonly DutyOutlook[]): string[] {
  const isSaid = all.slice(0, index).some(({ slipM3PerS }) => slipM3PerS.value === outlook.slipM3PerS.value);
  if (isSaid) {
    return [
      `for '${outlook.demandId}', at the same point:`,
      line('slowest, demand met', speedWords(outlook.slowestMeetingDemand)),
      line('hottest oil', hottestWords(outlook)),
    ];
  }
  return [
    `at the duty '${outlook.demandId}':`,
    line('flow', printed(outlook.flowM3PerS, 'l/min')),
    line('slip', printed(outlook.slipM3PerS, 'l/min')),
    ...budgetLines(outlook.slipM3PerS),
    line('efficiency q/(V_i n)', printed(outlook.derivedEfficiency, '%')),
    ...budgetLines(outlook.derivedEfficiency),
    line('slowest, pressure held', speedWords(outlook.slowestHoldingPressure)),
    line('slowest, demand met', speedWords(outlook.slowestMeetingDemand)),
    line('hottest oil', hottestWords(outlook)),
    line('thinner test oil', testOilWords(outlook)),
  ];
}

function theoryLines({ againstTheory, twoStep }: Fitted): string[] {
  const { capacity, slip, equivalentClearances } = againstTheory;
  const lines = ['against theory:', `  ${capacity.inWords}`];
  if (!slip.ok) lines.push(`  ${slip.reason.text}`);
  else {
    const agreeing = slip.value.holds.filter(({ agrees }) => agrees).length;
    lines.push(`  Slip agrees with the strip sheet in ${agreeing} of ${slip.value.holds.length} holds.`);
  }
  for (const { inWords } of equivalentClearances?.clearances ?? []) lines.push(`  ${inWords}.`);
  lines.push(
    twoStep.ok
      ? `  V_i by two straight lines: ${printed(twoStep.value.derivedCapacityM3PerRev, 'cm3/rev')}; less the law's ${printed(twoStep.value.differenceM3PerRev, 'cm3/rev')}.`
      : `  V_i by two straight lines: ${twoStep.reason.text}`,
  );
  return lines;
}

function checkLines({ checks, nextHold, monteCarlo }: Fitted): string[] {
  const { filling, relief, drift, air, hysteresis } = checks;
  return [
    'what is not slip:',
    ...[filling, relief, drift, air, hysteresis].map(({ text }) => `  ${text}`),
    nextHold.text,
    ...(monteCarlo === null
      ? []
      : [
          `by ${monteCarlo.trials} trials (seed ${monteCarlo.seed}) V_i lies, with 95 %, between ${monteCarlo.derivedCapacityM3PerRev.symmetricInterval
            .map((end) => differenceFrom(end, unitOf('cm3/rev')).toFixed(3))
            .join(
              ' and ',
            )} cm³/rev; the interval above ${monteCarlo.derivedCapacityM3PerRev.comparison.agrees ? 'agrees' : 'does not agree'} with it.`,
        ]),
  ];
}

/** What a delivery run says, for a terminal. */
export function deliveryText({ delivery, theory }: Pick<RunResult, 'delivery' | 'theory'>): string[] {
  if (delivery === null) return [];
  const { law, holds, capacityRatio, fitted } = delivery;
  if (!law.ok) return [...holdLines(holds), law.reason.text];
  const { stated, range, lackOfFit } = law.value;
  const [slowest, fastest] = range.speedRevPerS.map(printRpm);
  const [lowest, highest] = range.differentialPressurePa.map((pressurePa) =>
    differenceFrom(pressurePa, unitOf('bar(a)')).toFixed(2),
  );
  return [
    ...holdLines(holds),
    `fitted from ${slowest} to ${fastest} r/min and from ${lowest} to ${highest} bar. ${lackOfFit.text}`,
    line('derived capacity V_i', printed(stated.derivedCapacityM3PerRev, 'cm3/rev')),
    ...budgetLines(stated.derivedCapacityM3PerRev),
    line('swept volume V_g', `${printed(theory.sweptVolumeM3PerRev, 'cm3/rev')} (${theory.basis})`),
    ...(capacityRatio === null ? [] : [line('V_i / V_g', printed(capacityRatio, '%')), ...budgetLines(capacityRatio)]),
    ...(fitted === null
      ? []
      : [...fitted.outlook.flatMap(outlookLines), ...theoryLines(fitted), ...checkLines(fitted)]),
  ];
}
