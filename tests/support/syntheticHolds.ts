import type { HoldState } from '../../analysis/steady/holdState.ts';
import { exactly, type Source, type Uncertain } from '../../analysis/uncertainty/source.ts';

/** What a hold is made from when a test builds one by hand. */
export type HoldMakings = {
  readonly speedRevPerS: number;
  readonly differentialPressurePa: number;
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
  readonly flowM3PerS: number;
};

/** A law that holds are made by: no lost volume per turn. */
export const SYNTHETIC_LAW = { capacityM3PerRev: 13.9e-6, laminarM3: 2.2e-12, orificeM2: 5e-8 } as const;

/** Flow by that law. */
export function syntheticFlowM3PerS(at: Omit<HoldMakings, 'flowM3PerS'>): number {
  return (
    SYNTHETIC_LAW.capacityM3PerRev * at.speedRevPerS -
    (SYNTHETIC_LAW.laminarM3 * at.differentialPressurePa) / at.dynamicViscosityPaS -
    SYNTHETIC_LAW.orificeM2 * Math.sqrt((2 * at.differentialPressurePa) / at.densityKgPerM3)
  );
}

/** Three speeds by four pressures, the oil a little thinner at each further one. */
export const SYNTHETIC_SET_POINTS = [15, 9, 18.75].flatMap((speedRevPerS) =>
  [0.6e5, 1.8e5, 3e5, 3.9e5].map((differentialPressurePa, index) => ({
    speedRevPerS,
    differentialPressurePa,
    dynamicViscosityPaS: 0.045 - 0.001 * index,
    densityKgPerM3: 856,
  })),
);

/** A hold whose every value is exact but for the sensitivities given; flow scatters by its own source. */
export function syntheticHold(
  number: number,
  makings: HoldMakings,
  flowScatterM3PerS: number,
  sensitivities: Readonly<Partial<Record<keyof HoldMakings, Readonly<Record<string, number>>>>> = {},
): HoldState {
  const of = (key: keyof HoldMakings): Uncertain => ({ value: makings[key], sensitivities: sensitivities[key] ?? {} });
  const scatter: Source = {
    id: `hold.${number}.flow`,
    label: `hold ${number}, flow`,
    kind: 'random',
    standardUncertainty: flowScatterM3PerS,
    degreesOfFreedom: 50,
    shape: 'normal',
    pooledAs: null,
  };
  const flow = { value: makings.flowM3PerS, sensitivities: { ...sensitivities.flowM3PerS, [scatter.id]: 1 } };
  return {
    number,
    startS: 10 * number,
    endS: 10 * number + 5,
    readingCount: 250,
    effectiveReadingCount: 51,
    wildReadingCount: 0,
    speedRevPerS: of('speedRevPerS'),
    suctionPressurePa: exactly(1e5),
    deliveryPressurePa: exactly(1e5 + makings.differentialPressurePa),
    differentialPressurePa: of('differentialPressurePa'),
    flowM3PerS: flow,
    inletFlowM3PerS: flow,
    externalDrainM3PerS: null,
    torqueNM: null,
    motorPowerW: null,
    caseTemperatureK: null,
    oilTemperatureK: exactly(318.15),
    dynamicViscosityPaS: of('dynamicViscosityPaS'),
    densityKgPerM3: of('densityKgPerM3'),
    sources: [scatter],
    drifts: [],
    leftOut: null,
  };
}
