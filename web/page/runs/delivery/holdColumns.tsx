import type { ComponentChildren } from 'preact';
import { printedUnit, printFixed } from '../../../../analysis/formatStated.ts';
import type { HoldResult } from '../../../../analysis/result.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { StatedValue } from '../../words/StatedValue.tsx';

/** A column of the table of holds. */
export type HoldColumn = {
  readonly id: string;
  readonly head: ComponentChildren;
  readonly unit: string;
  readonly cell: (hold: HoldResult) => ComponentChildren;
};

/** One whose value may not have been recorded. */
type StatedColumn = HoldColumn & { readonly of: (hold: HoldResult) => Stated | null };

function statedColumn(id: string, head: ComponentChildren, unitSymbol: string, of: StatedColumn['of']): StatedColumn {
  return {
    of,
    id,
    head,
    unit: printedUnit(unitSymbol),
    cell: (hold) => {
      const stated = of(hold);
      return stated === null ? '–' : <StatedValue stated={stated} unitSymbol={unitSymbol} />;
    },
  };
}

function efficiency(index: string, of: StatedColumn['of']): StatedColumn {
  const head = (
    <>
      η<sub>{index}</sub>
    </>
  );
  return statedColumn(`eta-${index}`, head, '%', of);
}

const ALWAYS: readonly HoldColumn[] = [
  {
    id: 'time',
    head: 'from to',
    unit: 's',
    cell: ({ startS, endS }) => `${printFixed(startS, 0)} to ${printFixed(endS, 0)}`,
  },
  statedColumn('speed', 'speed', 'r/min', ({ speedRevPerS }) => speedRevPerS),
  statedColumn('suction', 'suction', 'bar(a)', ({ suctionPressurePa }) => suctionPressurePa),
  {
    ...statedColumn('difference', 'difference', 'bar(a)', ({ differentialPressurePa }) => differentialPressurePa),
    unit: 'bar',
  },
  statedColumn('flow', 'flow', 'l/min', ({ flowM3PerS }) => flowM3PerS),
  statedColumn('oil', 'oil', 'degC', ({ oilTemperatureK }) => oilTemperatureK),
  statedColumn('viscosity', 'viscosity', 'mPa s', ({ dynamicViscosityPaS }) => dynamicViscosityPaS),
  efficiency('V,i', ({ derivedEfficiency }) => derivedEfficiency),
  efficiency('V,g', ({ geometricEfficiency }) => geometricEfficiency),
];

/** Columns of what not every bench records. */
const WHERE_RECORDED: readonly StatedColumn[] = [
  statedColumn('drain', 'drain', 'l/min', ({ externalDrainM3PerS }) => externalDrainM3PerS),
  statedColumn('torque', 'torque', 'N m', ({ torqueNM }) => torqueNM),
  efficiency('hm', ({ hydromechanicalEfficiency }) => hydromechanicalEfficiency),
  efficiency('t', ({ totalEfficiency }) => totalEfficiency),
  efficiency('overall', ({ overallEfficiency }) => overallEfficiency),
];

const RESIDUAL: HoldColumn = {
  id: 'residual',
  head: 'off the law',
  unit: 'l/min',
  cell: ({ residualFlowM3PerS: residual }) =>
    residual === null ? '–' : printFixed(differenceFrom(residual, unitOf('l/min')), 3),
};

/** Columns for these holds: what the bench did not record has none. */
export function holdColumns(holds: readonly HoldResult[]): readonly HoldColumn[] {
  const recorded = WHERE_RECORDED.filter(({ of }) => holds.some((hold) => of(hold) !== null));
  return [...ALWAYS, ...recorded, RESIDUAL];
}
