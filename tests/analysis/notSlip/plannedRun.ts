import { type Coefficients, lawFlow } from '../../../analysis/delivery/slipLaw.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { type Source, type SourceTable, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { normal } from '../../support/random.ts';
import { type HoldMakings, syntheticHold } from '../../support/syntheticHolds.ts';

/** An invented pump of 14 cm³/rev whose slip at 900 r/min and 3 bar is about 6 % of its flow. */
export const INVENTED_LAW: Coefficients = {
  derivedCapacityM3PerRev: 14e-6,
  laminarSlipM3: 1.2e-12,
  orificeSlipM2: 1.2e-7,
  speedPressureSlipM3PerPa: 0,
};

/** Set points as they are taken: rev/s and Pa. Pressures up, down, up; the first again at the end. */
export const PLAN: readonly (readonly [number, number])[] = [
  ...[6e4, 1.8e5, 3e5, 3.9e5].map((pressurePa) => [15, pressurePa] as const),
  ...[3.9e5, 3e5, 1.8e5, 6e4].map((pressurePa) => [9, pressurePa] as const),
  ...[6e4, 1.8e5, 3e5, 3.9e5].map((pressurePa) => [18.75, pressurePa] as const),
  [15, 6e4],
];

/** Gain of the flow meter, common to all holds; large, so that a check that takes it for scatter sees nothing. */
const METER_GAIN: Source = {
  id: 'flow.gain',
  label: 'flow, gain of the instrument',
  kind: 'calibration',
  standardUncertainty: 0.02,
  degreesOfFreedom: null,
  shape: 'normal',
  pooledAs: null,
};

/** Relative scatter of a hold's mean flow [1]. */
const SCATTER = 0.001;

type Making = { readonly index: number; readonly makings: HoldMakings; readonly lawFlowM3PerS: number };

/**
 * Holds at set points, set points missed by 1 % and oil warmer by 4 % of its viscosity through the run; flow is that of the
 * law times one minus what `lost` says, with normal scatter and an error of the meter's gain.
 */
export function plannedHolds(
  seed: number,
  lost: (making: Making) => number = () => 0,
  points: readonly (readonly [number, number])[] = PLAN,
  law: Coefficients = INVENTED_LAW,
): readonly HoldState[] {
  const next = normal(seed);
  const gain = METER_GAIN.standardUncertainty * next();
  return points.map(([speed, pressurePa], index) => {
    const exact = {
      speedRevPerS: speed * (1 + 0.003 * next()),
      differentialPressurePa: pressurePa * (1 + 0.01 * next()),
      dynamicViscosityPaS: 0.03 * (1 - (0.04 * index) / points.length),
      densityKgPerM3: 860,
    };
    const lawFlowM3PerS = lawFlow(law, exact);
    const makings = { ...exact, flowM3PerS: 0 };
    const trueM3PerS = lawFlowM3PerS * (1 - lost({ index, makings, lawFlowM3PerS }));
    const flowM3PerS = trueM3PerS * (1 + gain + SCATTER * next());
    return syntheticHold(index + 1, { ...makings, flowM3PerS }, SCATTER * flowM3PerS, {
      flowM3PerS: { [METER_GAIN.id]: -flowM3PerS },
    });
  });
}

/** Every source of such holds. */
export function sourcesOf(holds: readonly HoldState[]): SourceTable {
  return sourceTable([METER_GAIN, ...holds.flatMap(({ sources }) => sources)]);
}

/** Binomial sum: 300 runs that cry wolf with a probability of 0.5 % each do so in more than 6 with 8.9e-4. */
export const MOST_FALSE_ALARMS_OF_300 = 6;

/** Binomial sum: 300 runs of which a check finds 90 % yield fewer than 253 with 8.0e-4. */
export const LEAST_FOUND_OF_300 = 253;

/** How many of 300 seeds from `first` on satisfy. */
export function countOf300(first: number, satisfies: (seed: number) => boolean): number {
  return Array.from({ length: 300 }, (_, index) => first + index).filter(satisfies).length;
}
