import { formatStated, type PrintedValue, printedUnit } from '../formatStated.ts';
import type { Demand, OperatingPoint } from '../records/dutyRecord.ts';
import { differenceFrom, readingFrom, type Unit, unitOf } from '../units.ts';

const NAMES: Readonly<Record<Demand['quantity'], string>> = {
  deliveredFlow: 'delivered flow',
  volumetricEfficiency: 'volumetric efficiency',
  capacityRatio: 'derived capacity over swept volume',
  primingTime: 'dry priming time',
};

const UNITS: Readonly<Record<Demand['quantity'], Unit>> = {
  deliveredFlow: unitOf('l/min'),
  volumetricEfficiency: unitOf('%'),
  capacityRatio: unitOf('%'),
  primingTime: unitOf('s'),
};

/** Up to four significant digits, and no zeros that say nothing: 0.45, 10.5, 300. */
function plainNumber(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** A demand by its quantity. */
export function demandName(demand: Demand): string {
  return NAMES[demand.quantity];
}

function pointInWords(at: OperatingPoint): string {
  const speed = plainNumber(differenceFrom(at.speedRevPerS, unitOf('r/min')));
  const pressure = plainNumber(differenceFrom(at.differentialPressurePa, unitOf('bar(a)')));
  const temperature = plainNumber(readingFrom(at.oilTemperatureK, unitOf('degC'), 0));
  return `at ${speed} r/min, Δp ${pressure} bar, oil ${temperature} °C`;
}

/** Where the demand is made: the operating point, or the lift and how the pump was prepared. */
export function demandPlace(demand: Demand): string {
  switch (demand.quantity) {
    case 'deliveredFlow':
    case 'volumetricEfficiency':
      return pointInWords(demand.at);
    case 'capacityRatio':
      return 'V_i / V_g';
    case 'primingTime':
      return `lift ${plainNumber(demand.staticLiftM)} m, at most ${plainNumber(differenceFrom(demand.atMostSpeedRevPerS, unitOf('r/min')))} r/min, class ${demand.wetness}${demand.starts === 1 ? '' : `, ${demand.starts} starts`}`;
  }
}

/** The limit as it is printed: 'at least 10.5 l/min'. */
export function demandLimit(demand: Demand): string {
  const unit = UNITS[demand.quantity];
  const print = (si: number) => plainNumber(differenceFrom(si, unit));
  const symbol = printedUnit(unit.symbol);
  switch (demand.quantity) {
    case 'deliveredFlow':
      return `at least ${print(demand.atLeastM3PerS)} ${symbol}`;
    case 'volumetricEfficiency':
      return `at least ${print(demand.atLeast)} ${symbol}`;
    case 'capacityRatio':
      return `${print(demand.atLeast)} to ${print(demand.atMost)} ${symbol}`;
    case 'primingTime':
      return `at most ${print(demand.atMostS)} ${symbol}`;
  }
}

/** A demand's value in the unit it is usually spoken in. */
export function demandValue(
  demand: Demand,
  stated: { readonly value: number; readonly expandedUncertainty: number },
): PrintedValue {
  return formatStated(stated, UNITS[demand.quantity]);
}
