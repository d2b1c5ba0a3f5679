import { printedUnit, printFixed } from '../formatStated.ts';
import type { Finding } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { unitOf, unitSymbols } from '../units.ts';

/**
 * V_i/V_g of a pump that was measured and typed in right lies inside the first; outside the second nothing that rests on
 * it can be used. Common practice, no source [1].
 */
const USUAL: readonly [number, number] = [0.87, 1.15];
const POSSIBLE: readonly [number, number] = [0.75, 1.25];

function isCertainlyOutside(ratio: number, uncertainty: number, [low, high]: readonly [number, number]): boolean {
  return ratio + uncertainty < low || ratio - uncertainty > high;
}

/** How near a factor must come to a mistake's own to be laid to it: a worn pump is some per cent off by itself [1]. */
const MATCH = 0.12;

/** A gallon of 4.54609 l, exact. Source: NIST SP 811 (2008), appendix B.8. */
const IMPERIAL_GALLON_M3 = 4.54609e-3;

type NamedUnit = { readonly symbol: string; readonly siPerUnit: number };

/** Units that instruments speak: those of the unit table, and some that it does not hold. */
const FLOW_UNITS: readonly NamedUnit[] = [
  ...unitSymbols('flow').map(unitOf),
  { symbol: 'l/s', siPerUnit: 1e-3 },
  { symbol: 'imp gal/min', siPerUnit: IMPERIAL_GALLON_M3 / 60 },
  { symbol: 'US gal/h', siPerUnit: unitOf('US gal').siPerUnit / 3600 },
  { symbol: 'cm3/min', siPerUnit: 1e-6 / 60 },
];
const SPEED_UNITS: readonly NamedUnit[] = [
  ...unitSymbols('speed').map(unitOf),
  { symbol: 'rad/s', siPerUnit: 1 / (2 * Math.PI) },
];

type Mistake = { readonly factor: number; readonly words: string };

/** The units that the bench record declares. */
export type DeclaredUnits = { readonly flowUnit: string; readonly speedUnit: string };

/** V_i/V_g that a mistake would make, and the mistake. */
function mistakes({ flowUnit, speedUnit }: DeclaredUnits): readonly Mistake[] {
  const readFlow = unitOf(flowUnit).siPerUnit;
  const readSpeed = unitOf(speedUnit).siPerUnit;
  const cubicInch = unitOf('in3/rev').siPerUnit / unitOf('cm3/rev').siPerUnit;
  return [
    ...FLOW_UNITS.filter(({ symbol }) => symbol !== flowUnit).map(({ symbol, siPerUnit }) => ({
      factor: readFlow / siPerUnit,
      words: `a flow meter that speaks ${printedUnit(symbol)} and is read as ${printedUnit(flowUnit)}`,
    })),
    ...SPEED_UNITS.filter(({ symbol }) => symbol !== speedUnit).map(({ symbol, siPerUnit }) => ({
      factor: siPerUnit / readSpeed,
      words: `a speed in ${symbol} that is read as ${speedUnit}`,
    })),
    { factor: 2 * Math.PI, words: 'a swept volume per radian typed in as one per turn' },
    { factor: 10, words: 'a decimal point (flow ten times too large, or swept volume ten times too small)' },
    { factor: 0.1, words: 'a decimal point (flow ten times too small, or swept volume ten times too large)' },
    { factor: 2, words: 'flow pulses counted on both edges, or every other speed pulse missed' },
    { factor: 0.5, words: 'every other flow pulse missed, or two speed pulses a turn counted as two turns' },
    { factor: cubicInch, words: 'a swept volume in cubic inches typed in as cubic centimetres' },
    { factor: 1 / cubicInch, words: 'a swept volume in cubic centimetres typed in as cubic inches' },
  ];
}

/**
 * What a derived capacity that the geometry cannot explain may come from: a unit read wrongly, where a known mistake would
 * make a ratio as near as 12 %, or something else.
 *
 * @param capacityRatio - V_i/V_g [1]
 * @param expandedUncertainty - of the ratio [1]
 * @param declared - units in which the bench record reads flow and speed [-]
 * @throws RangeError if a unit is not in the table, or the ratio is no positive number
 * @returns none for a ratio that may lie within 0.87 to 1.15; else FLOW_UNIT or CAPACITY_IMPLAUSIBLE, a warning up to 0.75
 *   and 1.25, unfit beyond [-]
 *
 * Source: limits are common practice, no source; factors by NIST SP 811 (2008), appendix B.
 */
export function capacitySuspicion(
  capacityRatio: number,
  expandedUncertainty: number,
  declared: DeclaredUnits,
): readonly Finding[] {
  if (!(capacityRatio > 0 && Number.isFinite(capacityRatio))) {
    throw new RangeError(`capacityRatio: ${capacityRatio} is not a number above zero`);
  }
  if (!isCertainlyOutside(capacityRatio, expandedUncertainty, USUAL)) return [];
  const severity = isCertainlyOutside(capacityRatio, expandedUncertainty, POSSIBLE) ? 'unfit' : 'warning';
  const ratio = capacityRatio.toPrecision(3);
  const found = mistakes(declared)
    .map(({ factor, words }) => ({ words, distance: Math.abs(Math.log(capacityRatio / factor)) }))
    .filter(({ distance }) => distance <= Math.log(1 + MATCH));
  const nearest = Math.min(...found.map(({ distance }) => distance));
  // A mistake half a tolerance farther off than the nearest is not worth naming beside it.
  const named = found.filter(({ distance }) => distance <= nearest + Math.log(1 + MATCH) / 2).map(({ words }) => words);
  if (named.length === 0) {
    return [
      {
        code: 'CAPACITY_IMPLAUSIBLE',
        severity,
        text: `The derived capacity is ${ratio} times the swept volume of the geometry, and no common mix-up of units explains that. Check swept volume, flow meter, speed pick-up, and whether all the flow goes through the meter.`,
      },
    ];
  }
  return [
    {
      code: 'FLOW_UNIT',
      severity,
      text: `The derived capacity is ${ratio} times the swept volume of the geometry. That would come from ${named.join('; or from ')}. Compare the bench record and the pump record with what instruments and drawing say.`,
    },
  ];
}

/**
 * Ports or rotation the wrong way round, seen in the holds before any law is fitted.
 *
 * @param holds - averaged holds [n holds]
 * @returns PORTS_SWAPPED where most holds have forward flow against a negative pressure difference; ROTATION_REVERSED
 *   where in most flow and speed have opposite signs [-]
 */
export function directionFindings(holds: readonly HoldState[]): readonly Finding[] {
  const countOf = (is: (hold: HoldState) => boolean): number => holds.filter(is).length;
  const reversed = countOf(({ speedRevPerS, flowM3PerS }) => speedRevPerS.value * flowM3PerS.value < 0);
  const swapped = countOf(
    ({ differentialPressurePa, flowM3PerS }) => differentialPressurePa.value < 0 && flowM3PerS.value > 0,
  );
  const share = (count: number): string => `${printFixed(count, 0)} of ${holds.length} holds`;
  const findings: Finding[] = [];
  if (2 * swapped > holds.length) {
    findings.push({
      code: 'PORTS_SWAPPED',
      severity: 'unfit',
      text: `In ${share(swapped)} the delivery pressure stood below the suction pressure while oil flowed forwards: the two pressure sensors are exchanged, or their channels are. Exchange them in the bench record or on the pump, and repeat the run.`,
    });
  }
  if (2 * reversed > holds.length) {
    findings.push({
      code: 'ROTATION_REVERSED',
      severity: 'unfit',
      text: `In ${share(reversed)} flow and speed had opposite signs: the pump turned the wrong way, or one of the two is wired backwards. Stop before the shaft seal sees delivery pressure; check the direction of rotation, then the signs of both channels.`,
    });
  }
  return findings;
}
