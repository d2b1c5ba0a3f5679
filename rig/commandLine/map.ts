import type { EfficiencyMap } from '../../analysis/efficiency/efficiencyMap.ts';
import { lawSpeaker } from '../../analysis/efficiency/lawSpeaker.ts';
import { mapAt } from '../../analysis/efficiency/mapAt.ts';
import { oilFromGrade } from '../../analysis/oil/oilFromGrade.ts';
import { isoViscosityGrade } from '../../analysis/oil/viscosityGrades.ts';
import type { OilRecord } from '../../analysis/records/oilRecord.ts';
import { differenceFrom, ICE_POINT_K, unitOf } from '../../analysis/units.ts';
import type { Archive } from '../archive/openArchive.ts';
import { readStoredResult } from '../session/analyseStoredRun.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

export type MapOptions = {
  /** At the pump inlet [°C]. */
  readonly oilTemperature: number;
  /** ISO VG number of another oil; absent: the run's own oil. */
  readonly grade?: number;
  readonly viscosityIndex: number;
};

/** Columns and rows of the table; the JSON has the whole grid. */
const SHOWN_STEPS = 5;

function oilOf(runOil: OilRecord, { grade, viscosityIndex }: MapOptions): OilRecord {
  if (grade === undefined) return runOil;
  const limits = isoViscosityGrade(grade);
  if (!limits.ok) throw new WrongUse(`--grade ${grade}: ${limits.reason.text}`);
  const estimated = oilFromGrade(limits.value, viscosityIndex);
  if (!estimated.ok) throw new WrongUse(`--grade ${grade}: ${estimated.reason.text}`);
  const { basis, ...viscosity } = estimated.value;
  return { ...runOil, ...viscosity, name: `ISO VG ${grade}, ${basis}` };
}

function table(map: EfficiencyMap): string {
  const { speedsRevPerS, differentialPressuresPa, derivedEfficiency, isExtrapolated } = map;
  const everyOf = (count: number): number[] =>
    Array.from({ length: SHOWN_STEPS }, (_, index) => Math.round((index * (count - 1)) / (SHOWN_STEPS - 1)));
  const columns = everyOf(speedsRevPerS.length);
  const cell = (row: number, column: number): string => {
    const index = row * speedsRevPerS.length + column;
    const value = 100 * (derivedEfficiency.values[index] ?? Number.NaN);
    if (!(value > 0)) return 'no flow '.padStart(15);
    const uncertainty = 100 * (derivedEfficiency.expandedUncertainties[index] ?? Number.NaN);
    return `${value.toFixed(1)} ± ${uncertainty.toFixed(1)}${isExtrapolated[index] === true ? '*' : ' '}`.padStart(15);
  };
  const speeds = columns.map(
    (column) => `${differenceFrom(speedsRevPerS[column] ?? 0, unitOf('r/min')).toFixed(0)} r/min `,
  );
  const rows = everyOf(differentialPressuresPa.length).map((row) => {
    const bar = differenceFrom(differentialPressuresPa[row] ?? 0, unitOf('bar(a)')).toFixed(2);
    return `${`${bar} bar`.padStart(10)}${columns.map((column) => cell(row, column)).join('')}`;
  });
  return [
    `q/(V_i n) in %, ± for 95 %, with ${map.oilName} at ${(map.oilTemperatureK - ICE_POINT_K).toFixed(1)} °C; ${map.clearances}`,
    `${' '.repeat(10)}${speeds.map((speed) => speed.padStart(15)).join('')}`,
    ...rows,
    ...(isExtrapolated.includes(true) ? ['* outside what was measured'] : []),
  ].join('\n');
}

/** `slipwright map`: the efficiency of a run's law over speed and pressure, at the oil and temperature asked for. */
export function map(runId: string, options: MapOptions, archive: Archive, speaker: Speaker): ExitCode {
  const { sealed, result } = readStoredResult(archive, runId);
  const { delivery, theory, sources } = result;
  if (delivery === null) throw new WrongUse(`run ${runId} is no delivery run: it has no law to draw a map of`);
  if (!delivery.law.ok) {
    speaker.say(`${delivery.law.reason.code}: ${delivery.law.reason.text}`);
    return EXIT.dataSayNo;
  }
  const drain = delivery.fitted?.drain?.ok ? { drainCoefficientM3: delivery.fitted.drain.value.uncertain } : null;
  const oil = oilOf(sealed.run.oil, options);
  const speaking = lawSpeaker(sealed.run, delivery.law.value, drain, Object.values(sources), oil);
  const found = mapAt(speaking, theory.sweptVolume, options.oilTemperature + ICE_POINT_K);
  if (!found.ok) {
    speaker.say(`${found.reason.code}: ${found.reason.text}`);
    return EXIT.dataSayNo;
  }
  speaker.result(found.value, table(found.value));
  return EXIT.done;
}
