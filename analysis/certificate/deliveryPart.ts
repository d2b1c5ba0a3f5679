import type { Checks, DeliveryResult, HoldResult, SlipLaw } from '../result.ts';
import { budgeted, statedOnly, statedOrNull } from './certificateStated.ts';
import { LAW_FORMULA, LAW_IN_WORDS } from './certificateWords.ts';
import type { CertifiedRun } from './certifiedRun.ts';
import type { CertificateDelivery, CertificateHold, CertificateLaw } from './deliverySchema.ts';

function certificateHold(hold: HoldResult): CertificateHold {
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
    leftOut: hold.leftOut,
  };
}

function certificateLaw(law: SlipLaw): CertificateLaw {
  const { stated, terms, holdCount, residualDegreesOfFreedom, reducedChiSquare, range } = law;
  return {
    formula: LAW_FORMULA,
    inWords: LAW_IN_WORDS,
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

function partOf(runId: string, { holds, law, capacityRatio, fitted }: DeliveryResult): CertificateDelivery[] {
  // A run without a law carries the finding 'unfit' and was refused before.
  if (!law.ok) return [];
  return [
    {
      runId,
      holds: holds.map(certificateHold),
      law: certificateLaw(law.value),
      capacityRatio: statedOrNull(capacityRatio),
      twoStepCapacityM3PerRev: fitted?.twoStep.ok ? statedOnly(fitted.twoStep.value.derivedCapacityM3PerRev) : null,
      lackOfFit: law.value.lackOfFit.text,
      checks: fitted === null ? [] : checkParts(fitted.checks),
    },
  ];
}

/** Holds, law and efficiencies of every delivery run. */
export function deliveryParts(runs: readonly CertifiedRun[]): CertificateDelivery[] {
  return runs.flatMap(({ run, result }) => (result.delivery === null ? [] : partOf(run.id, result.delivery)));
}
