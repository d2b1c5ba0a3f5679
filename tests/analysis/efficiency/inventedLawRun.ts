import { fitSlip, type SlipFit } from '../../../analysis/delivery/fitSlip.ts';
import { type Coefficients, lawFlow } from '../../../analysis/delivery/slipLaw.ts';
import { mergeSources } from '../../../analysis/efficiency/mergeSources.ts';
import type { LawEvidence } from '../../../analysis/efficiency/spokenLaw.ts';
import { spokenOil } from '../../../analysis/efficiency/spokenOil.ts';
import { oilSources, oilStateAt } from '../../../analysis/oil/oilStateAt.ts';
import type { SlipLaw } from '../../../analysis/result.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import {
  combine,
  exactly,
  type Source,
  type SourceTable,
  type Uncertain,
} from '../../../analysis/uncertainty/source.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { normal } from '../../support/random.ts';

/** An invented pump of 13.9 cm³/rev, worn enough for its slip to show. */
export const INVENTED_LAW: Coefficients = {
  derivedCapacityM3PerRev: 13.9e-6,
  laminarSlipM3: 2.2e-12,
  orificeSlipM2: 5e-8,
  speedPressureSlipM3PerPa: 0,
};

const BENCH_K = 318.15;
const FLOW_SCATTER_M3_PER_S = 5e-8;

const CALIBRATIONS: readonly Source[] = (
  [
    ['flow.gain', 0.003],
    ['flow.offset', 8e-8],
    ['speed.gain', 0.0003],
    ['pressure.gain', 0.0015],
    ['pressure.offset', 300],
    ['temperature.offset', 0.2],
  ] as const
).map(([id, standardUncertainty]) => ({
  id,
  label: id,
  kind: 'calibration',
  standardUncertainty,
  degreesOfFreedom: null,
  shape: 'normal',
  pooledAs: null,
}));

/** Thirteen holds: three speeds, four pressures, the first repeated last. */
const SET_POINTS = [
  ...[15, 9, 18.75].flatMap((speedRevPerS) =>
    [0.6e5, 1.8e5, 3e5, 3.9e5].map((differentialPressurePa) => ({ speedRevPerS, differentialPressurePa })),
  ),
  { speedRevPerS: 15, differentialPressurePa: 0.6e5 },
];

const RANGE: SlipLaw['range'] = {
  speedRevPerS: [9, 18.75],
  differentialPressurePa: [0.6e5, 3.9e5],
  oilTemperatureK: [BENCH_K, BENCH_K],
};

export type InventedLawRun = {
  readonly holds: readonly HoldState[];
  readonly fit: SlipFit;
  readonly evidence: LawEvidence;
  readonly calibrations: readonly Source[];
  readonly sources: SourceTable;
};

/** A hold of the invented pump with calibration errors like a bench's and scatter of its own. */
export function inventedHold(
  number: number,
  at: { readonly speedRevPerS: number; readonly differentialPressurePa: number },
  scatterM3PerS: number,
  law: Coefficients = INVENTED_LAW,
): HoldState {
  const { speedRevPerS, differentialPressurePa } = at;
  const temperature: Uncertain = { value: BENCH_K, sensitivities: { 'temperature.offset': -1 } };
  const oil = oilStateAt(INVENTED_VG46, temperature);
  const trueFlow = lawFlow(law, {
    speedRevPerS,
    differentialPressurePa,
    dynamicViscosityPaS: oil.dynamicViscosityPaS.value,
    densityKgPerM3: oil.densityKgPerM3.value,
  });
  const flowSource: Source = {
    id: `hold.${number}.flow`,
    label: `hold ${number}, flow`,
    kind: 'random',
    standardUncertainty: FLOW_SCATTER_M3_PER_S,
    degreesOfFreedom: 40,
    shape: 'normal',
    pooledAs: null,
  };
  const value = trueFlow + scatterM3PerS;
  const flow = { value, sensitivities: { 'flow.gain': -value, 'flow.offset': -1, [flowSource.id]: 1 } };
  return {
    number,
    startS: 10 * number,
    endS: 10 * number + 5,
    readingCount: 250,
    effectiveReadingCount: 41,
    wildReadingCount: 0,
    speedRevPerS: { value: speedRevPerS, sensitivities: { 'speed.gain': -speedRevPerS } },
    suctionPressurePa: { value: 1e5, sensitivities: {} },
    deliveryPressurePa: {
      value: 1e5 + differentialPressurePa,
      sensitivities: { 'pressure.gain': -differentialPressurePa, 'pressure.offset': -1 },
    },
    differentialPressurePa: {
      value: differentialPressurePa,
      sensitivities: { 'pressure.gain': -differentialPressurePa, 'pressure.offset': -1 },
    },
    flowM3PerS: flow,
    inletFlowM3PerS: flow,
    externalDrainM3PerS: null,
    torqueNM: null,
    motorPowerW: null,
    caseTemperatureK: null,
    oilTemperatureK: temperature,
    ...oil,
    sources: [flowSource],
    drifts: [],
    leftOut: null,
  };
}

/** The run of the invented pump, its scatter seeded; scale 0: none. */
export function inventedLawRun(seed: number, scatterScale = 1, law: Coefficients = INVENTED_LAW): InventedLawRun {
  const nextNormal = normal(seed);
  const holds = SET_POINTS.map((at, index) =>
    inventedHold(index + 1, at, scatterScale * FLOW_SCATTER_M3_PER_S * nextNormal(), law),
  );
  const fit = fitSlip(holds);
  if (!fit.ok) throw new Error(fit.reason.text);
  return {
    holds,
    fit: fit.value,
    evidence: {
      law: { ...fit.value, range: RANGE },
      oil: spokenOil(INVENTED_VG46, INVENTED_VG46),
      runOil: INVENTED_VG46,
      outlet: null,
    },
    calibrations: CALIBRATIONS,
    sources: mergeSources(
      CALIBRATIONS,
      oilSources(INVENTED_VG46),
      holds.flatMap(({ sources }) => sources),
      fit.value.sources,
    ),
  };
}

/** The invented law as if it were known without error, at its own oil; some of its terms changed. */
export function exactEvidence(changes: Partial<Coefficients> = {}): LawEvidence {
  const coefficients = { ...INVENTED_LAW, ...changes };
  return {
    law: {
      coefficients,
      uncertain: {
        derivedCapacityM3PerRev: exactly(coefficients.derivedCapacityM3PerRev),
        laminarSlipM3: exactly(coefficients.laminarSlipM3),
        orificeSlipM2: exactly(coefficients.orificeSlipM2),
        speedPressureSlipM3PerPa: exactly(coefficients.speedPressureSlipM3PerPa),
      },
      range: RANGE,
    },
    oil: spokenOil(INVENTED_VG46, INVENTED_VG46),
    runOil: INVENTED_VG46,
    outlet: null,
  };
}

/** A value with a source of its own. */
export function measured(id: string, value: number, standardUncertainty: number) {
  const source: Source = {
    id,
    label: id,
    kind: 'calibration',
    standardUncertainty,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
  return { value: combine(value, [{ input: { value: 0, sensitivities: { [id]: 1 } }, derivative: 1 }]), source };
}
