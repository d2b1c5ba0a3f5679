import type { DeliveryResult, HoldResult, SlipLaw } from '../result.ts';
import type { CertificateDelivery, CertificateHold, CertificateLaw } from './certificateData.ts';
import { budgeted, statedOnly, statedOrNull } from './certificateStated.ts';
import { LAW_FORMULA, LAW_IN_WORDS } from './certificateWords.ts';
import type { CertifiedRun } from './certifiedRun.ts';

function certificateHold(hold: HoldResult): CertificateHold {
  const { number, startS, endS, readingCount, effectiveReadingCount } = hold;
  const { dynamicViscosityPaS, densityKgPerM3, residualFlowM3PerS } = hold;
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
    oilTemperatureK: statedOnly(hold.oilTemperatureK),
    dynamicViscosityPaS,
    densityKgPerM3,
    derivedEfficiency: statedOrNull(hold.derivedEfficiency),
    geometricEfficiency: statedOnly(hold.geometricEfficiency),
    residualFlowM3PerS,
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

function partOf(runId: string, { holds, law, capacityRatio }: DeliveryResult): CertificateDelivery[] {
  // A run without a law carries the finding 'unfit' and was refused before.
  if (!law.ok) return [];
  return [
    {
      runId,
      holds: holds.map(certificateHold),
      law: certificateLaw(law.value),
      capacityRatio: statedOrNull(capacityRatio),
    },
  ];
}

/** Holds, law and efficiencies of every delivery run. */
export function deliveryParts(runs: readonly CertifiedRun[]): CertificateDelivery[] {
  return runs.flatMap(({ run, result }) => (result.delivery === null ? [] : partOf(run.id, result.delivery)));
}
