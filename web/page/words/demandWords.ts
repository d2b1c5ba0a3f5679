import { formatProbability, printFixed } from '../../../analysis/formatStated.ts';
import type { Demand, OperatingPoint } from '../../../analysis/records/dutyRecord.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../analysis/units.ts';

/** A demand in a fitter's words. */
export type DemandWords = {
  /** What is asked, and where: 'flow at 900 r/min, 3.0 bar and 50 °C'. */
  readonly what: string;
  /** 'at least 10.5' */
  readonly limit: string;
  readonly unitSymbol: string;
};

function inUnit(si: number, symbol: string, decimals: number): string {
  return printFixed(readingFrom(si, unitOf(symbol), 0), decimals);
}

export function pointWords(at: OperatingPoint): string {
  const bar = printFixed(differenceFrom(at.differentialPressurePa, unitOf('bar(a)')), 1);
  return `${inUnit(at.speedRevPerS, 'r/min', 0)} r/min, ${bar} bar difference and ${inUnit(at.oilTemperatureK, 'degC', 0)} °C`;
}

export function demandWords(demand: Demand): DemandWords {
  switch (demand.quantity) {
    case 'deliveredFlow':
      return {
        what: `flow at ${pointWords(demand.at)}`,
        limit: `at least ${inUnit(demand.atLeastM3PerS, 'l/min', 2)}`,
        unitSymbol: 'l/min',
      };
    case 'volumetricEfficiency':
      return {
        what: `volumetric efficiency at ${pointWords(demand.at)}`,
        limit: `at least ${inUnit(demand.atLeast, '%', 1)}`,
        unitSymbol: '%',
      };
    case 'capacityRatio':
      return {
        what: 'derived capacity over swept volume',
        limit: `${inUnit(demand.atLeast, '%', 1)} to ${inUnit(demand.atMost, '%', 1)}`,
        unitSymbol: '%',
      };
    case 'primingTime':
      return {
        what: `oil arrives from ${printFixed(demand.staticLiftM, 2)} m below, pump prepared as ${demand.wetness}, at ${inUnit(demand.atMostSpeedRevPerS, 'r/min', 0)} r/min or less${demand.starts === 1 ? '' : `, in each of ${demand.starts} starts`}`,
        limit: `within ${printFixed(demand.atMostS, 1)}`,
        unitSymbol: 's',
      };
  }
}

/** 0.953 is '95 %'; near the ends one figure more. */
export function probabilityWords(probability: number): string {
  return formatProbability(probability, probability > 0.99 || probability < 0.01 ? 1 : 0);
}
