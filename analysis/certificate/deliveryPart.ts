import type { Checks, DeliveryResult, Fitted, HoldResult, RunResult, SlipLaw } from '../result.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { budgeted, statedOnly, statedOrNull } from './certificateStated.ts';
import { LAW_FORMULA, LAW_IN_WORDS } from './certificateWords.ts';
import type { CertifiedRun } from './certifiedRun.ts';
import type { CertificateDelivery, CertificateHold, CertificateLaw } from './deliverySchema.ts';
import { efficiencyTable } from './efficiencyPart.ts';
import { lawBands } from './lawBands.ts';
import { outlookWords } from './outlookWords.ts';
import { workedLine } from './workedLine.ts';

type HoldSlips = ReadonlyMap<number, { readonly measured: Stated; readonly expected: Stated }>;

function certificateHold(hold: HoldResult, slips: HoldSlips): CertificateHold {
  const { number, startS, endS, readingCount, effectiveReadingCount } = hold;
  return {
    number,
    startS,
    endS,
    readingCount,
    effectiveReadingCount,
    speedRevPerS: statedOnly(hold.speedRevPerS),
    suctionPressurePa: statedOnly(hold.suctionPressurePa),
    deliveryPressurePa: statedOnly(hold.deliveryPressurePa),
    differentialPressurePa: statedOnly(hold.differentialPressurePa),
    flowM3PerS: statedOnly(hold.flowM3PerS),
    inletFlowM3PerS: statedOnly(hold.inletFlowM3PerS),
    oilTemperatureK: statedOnly(hold.oilTemperatureK),
    dynamicViscosityPaS: hold.dynamicViscosityPaS.value,
    densityKgPerM3: hold.densityKgPerM3.value,
    derivedEfficiency: statedOrNull(hold.derivedEfficiency),
    geometricEfficiency: statedOnly(hold.geometricEfficiency),
    residualFlowM3PerS: hold.residualFlowM3PerS,
    slipM3PerS: statedOrNull(slips.get(number)?.measured ?? null),
    predictedSlipM3PerS: statedOrNull(slips.get(number)?.expected ?? null),
    leftOut: hold.leftOut,
  };
}

function certificateLaw(law: SlipLaw, holds: readonly CertificateHold[]): CertificateLaw {
  const { stated, terms, holdCount, residualDegreesOfFreedom, reducedChiSquare, range } = law;
  return {
    formula: LAW_FORMULA,
    inWords: LAW_IN_WORDS,
    workedLine: workedLine(law, holds),
    coefficients: {
      derivedCapacityM3PerRev: budgeted(stated.derivedCapacityM3PerRev),
      laminarSlipM3: budgeted(stated.laminarSlipM3),
      orificeSlipM2: budgeted(stated.orificeSlipM2),
      speedPressureSlipM3PerPa: budgeted(stated.speedPressureSlipM3PerPa),
    },
    terms: [...terms],
    holdCount,
    residualDegreesOfFreedom,
    reducedChiSquare,
    range: {
      speedRevPerS: [...range.speedRevPerS],
      differentialPressurePa: [...range.differentialPressurePa],
      oilTemperatureK: [...range.oilTemperatureK],
    },
  };
}

/** What is not slip, check by check. */
function checkParts({ filling, relief, drift, air, hysteresis }: Checks): CertificateDelivery['checks'] {
  const part = (name: string, { read, text }: Checks[keyof Checks]) => ({ name, read, text });
  return [
    part('filling', filling),
    part('relief valve', relief),
    part('drift', drift),
    part('air in the oil', air),
    part('hysteresis', hysteresis),
  ];
}

/** Slip by hold, measured and by the strip sheet; none without a sheet. */
function slipsOf(fitted: Fitted | null): HoldSlips {
  const slip = fitted?.againstTheory.slip;
  return new Map(slip?.ok === true ? slip.value.holds.map((hold) => [hold.holdNumber, hold] as const) : []);
}

function againstTheory(fitted: Fitted | null): string[] {
  if (fitted === null) return [];
  const { capacity, slip, equivalentClearances } = fitted.againstTheory;
  const agreeing = slip.ok ? slip.value.holds.filter(({ agrees }) => agrees).length : 0;
  return [
    capacity.inWords,
    slip.ok ? `Slip agrees with the strip sheet in ${agreeing} of ${slip.value.holds.length} holds.` : slip.reason.text,
    ...(equivalentClearances?.clearances ?? []).map(({ inWords }) => `${inWords}.`),
  ];
}

function partOf(runId: string, delivery: DeliveryResult, sources: RunResult['sources']): CertificateDelivery[] {
  const { law, capacityRatio, fitted } = delivery;
  // A run without a law carries the finding 'unfit' and was refused before.
  if (!law.ok) return [];
  const slips = slipsOf(fitted);
  const holds = delivery.holds.map((hold) => certificateHold(hold, slips));
  return [
    {
      runId,
      holds,
      law: certificateLaw(law.value, holds),
      bands: lawBands(law.value, holds, sources),
      efficiencyMap: fitted === null ? null : efficiencyTable(fitted.map),
      outlook: (fitted?.outlook ?? []).map((outlook) => ({
        demandId: outlook.demandId,
        inWords: outlookWords(outlook),
      })),
      againstTheory: againstTheory(fitted),
      capacityRatio: statedOrNull(capacityRatio),
      twoStepCapacityM3PerRev: fitted?.twoStep.ok ? statedOnly(fitted.twoStep.value.derivedCapacityM3PerRev) : null,
      lackOfFit: law.value.lackOfFit.text,
      checks: fitted === null ? [] : checkParts(fitted.checks),
    },
  ];
}

/** Holds, law and efficiencies of every delivery run. */
export function deliveryParts(runs: readonly CertifiedRun[]): CertificateDelivery[] {
  return runs.flatMap(({ run, result }) =>
    result.delivery === null ? [] : partOf(run.id, result.delivery, result.sources),
  );
}
