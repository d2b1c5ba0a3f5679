import { buildCertificate, type CertificateRequest } from '../../analysis/certificate/buildCertificate.ts';
import type { CertificateData } from '../../analysis/certificate/certificateData.ts';
import type { CertifiedRun } from '../../analysis/certificate/certifiedRun.ts';
import type { DecimatedReadings } from '../../analysis/decimate.ts';
import { fittedFlow } from '../../analysis/delivery/slipLaw.ts';
import type { Demand } from '../../analysis/records/dutyRecord.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import { type RunRecord, runClosing } from '../../analysis/records/runRecord.ts';
import type { DemandVerdict, HoldResult, LawTerm, RunResult, SlipLaw } from '../../analysis/result.ts';
import { exactly } from '../../analysis/uncertainty/source.ts';
import type { Stated } from '../../analysis/uncertainty/stated.ts';
import { accepted } from './accepted.ts';
import { BAROMETER_PA, EFFICIENCY_DEMAND, FLOW_DEMAND, feedPump, PRIMING_DEMAND, runOf } from './certificateRecords.ts';
import { INVENTED_ESTIMATE } from './inventedEstimate.ts';
import { stated as withoutBudget } from './stated.ts';

/**
 * Sealed runs with their results, written by hand for the certificate. The numbers hang together (a flow is that of the law)
 * but come from no pump.
 */

const VISCOSITY_PAS = 0.0301;
const DENSITY_KG_PER_M3 = 861.2;

export function stated(value: number, standardUncertainty: number): Stated {
  return {
    ...withoutBudget(value, standardUncertainty),
    budget: [
      {
        sourceId: 'flow.gain',
        label: 'flow, gain of the instrument',
        kind: 'calibration',
        contribution: 0.9 * standardUncertainty,
        share: 0.81,
      },
      {
        sourceId: 'flow',
        label: 'flow, scatter',
        kind: 'random',
        contribution: 0.436 * standardUncertainty,
        share: 0.19,
      },
    ],
  };
}

const COEFFICIENTS: Readonly<Record<LawTerm, number>> = {
  derivedCapacityM3PerRev: 1.3794e-5,
  laminarSlipM3: 8.31e-13,
  orificeSlipM2: 4.9e-8,
  speedPressureSlipM3PerPa: 0,
};

const LAW: SlipLaw = {
  coefficients: COEFFICIENTS,
  uncertain: {
    derivedCapacityM3PerRev: exactly(COEFFICIENTS.derivedCapacityM3PerRev),
    laminarSlipM3: exactly(COEFFICIENTS.laminarSlipM3),
    orificeSlipM2: exactly(COEFFICIENTS.orificeSlipM2),
    speedPressureSlipM3PerPa: exactly(0),
  },
  stated: {
    derivedCapacityM3PerRev: stated(COEFFICIENTS.derivedCapacityM3PerRev, 4.4e-8),
    laminarSlipM3: stated(COEFFICIENTS.laminarSlipM3, 6.2e-14),
    orificeSlipM2: stated(COEFFICIENTS.orificeSlipM2, 9.1e-9),
    speedPressureSlipM3PerPa: stated(0, 3.1e-14),
  },
  terms: ['derivedCapacityM3PerRev', 'laminarSlipM3', 'orificeSlipM2', 'speedPressureSlipM3PerPa'],
  holdCount: 15,
  residualDegreesOfFreedom: 11,
  reducedChiSquare: 0.93,
  termChoice: { candidates: [], demanded: ['derivedCapacityM3PerRev', 'laminarSlipM3'] },
  lackOfFit: {
    againstScatter: { chiSquare: 10.2, degreesOfFreedom: 11, scatterDegreesOfFreedom: 1200, probability: 0.51 },
    againstRepeats: null,
    isLacking: null,
    text: 'No set point was repeated: in the fixture, by hand.',
  },
  betweenHoldsM3PerS: 3.1e-7,
  range: {
    speedRevPerS: [8.33, 18.36],
    differentialPressurePa: [5.1e4, 5.03e5],
    oilTemperatureK: [317.6, 318.9],
  },
};

function hold(number: number, speedRevPerS: number, differentialPressurePa: number): HoldResult {
  const flow = fittedFlow(LAW, {
    speedRevPerS,
    differentialPressurePa,
    dynamicViscosityPaS: VISCOSITY_PAS,
    densityKgPerM3: DENSITY_KG_PER_M3,
  }).value;
  // A residual that goes up and down with the hold's number.
  const residualFlowM3PerS = (number % 3) * 4e-7 - 4e-7;
  const flowM3PerS = flow + residualFlowM3PerS;
  return {
    number,
    startS: 12 * number,
    endS: 12 * number + 7.4,
    readingCount: 370,
    effectiveReadingCount: 82,
    wildReadingCount: 0,
    leftOut: null,
    drifts: [],
    speedRevPerS: stated(speedRevPerS, 0.005),
    suctionPressurePa: stated(96_400, 70),
    deliveryPressurePa: stated(96_400 + differentialPressurePa, 700),
    differentialPressurePa: stated(differentialPressurePa, 720),
    flowM3PerS: stated(flowM3PerS, 6.2e-7),
    inletFlowM3PerS: stated(flowM3PerS, 6.2e-7),
    oilTemperatureK: stated(318.2 + 0.04 * number, 0.2),
    dynamicViscosityPaS: stated(VISCOSITY_PAS, 0.01 * VISCOSITY_PAS),
    densityKgPerM3: stated(DENSITY_KG_PER_M3, 0.9),
    externalDrainM3PerS: null,
    caseTemperatureK: null,
    torqueNM: null,
    motorPowerW: null,
    hydraulicPowerW: null,
    hydromechanicalEfficiency: null,
    totalEfficiency: null,
    overallEfficiency: null,
    leverage: 0.2,
    studentisedResidual: 0.4,
    deletedResidualM3PerS: residualFlowM3PerS,
    derivedEfficiency: stated(flowM3PerS / (speedRevPerS * COEFFICIENTS.derivedCapacityM3PerRev), 0.0014),
    geometricEfficiency: stated(flowM3PerS / (speedRevPerS * 1.3881e-5), 0.0041),
    residualFlowM3PerS,
  };
}

function holds(): HoldResult[] {
  const pressuresPa = [51_000, 152_000, 248_000, 351_000, 503_000];
  return [8.33, 15.01, 18.36].flatMap((speedRevPerS, row) =>
    pressuresPa.map((pressurePa, column) => hold(1 + row * pressuresPa.length + column, speedRevPerS, pressurePa)),
  );
}

function sealed(run: RunRecord, result: Omit<RunResult, 'runId' | 'kind'>): CertifiedRun {
  return {
    run,
    closing: runClosing.parse({
      format: 'slipwright.closing/1',
      runId: run.id,
      ending: 'completed',
      reason: 'all points taken',
      closedAtUtc: run.startedAtUtc.replace(/T(\d\d):\d\d/, 'T$1:59'),
      lineCount: 11_204,
      byteLength: 761_872,
      sha256: { run: '1a'.repeat(32), journal: '2b'.repeat(32), marks: '3c'.repeat(32) },
    }),
    result: { ...result, runId: run.id, kind: run.kind },
  };
}

function common(isPractice: boolean) {
  return {
    format: 'slipwright.result/2',
    analysisVersion: '2',
    relief: null,
    suction: null,
    exclusions: [],
    isPractice,
    census: {
      lineCount: 11_204,
      readingCount: 11_201,
      noteCount: 1,
      badLineCounts: { checksum: 2 },
      lostReadingCount: 2,
      reconnectCount: 0,
    },
    findings: [
      {
        code: 'BAD_LINES',
        severity: 'note',
        text: '2 of 11204 lines were bad (2 checksum); they are kept in the journal and left out of the readings.',
      },
    ],
    sources: {},
    theory: {
      sweptVolumeM3PerRev: stated(1.38813e-5, 5.6e-8),
      sweptVolume: exactly(1.38813e-5),
      basis: 'equal external gears, measured',
      flowRipple: 0.177515,
    },
  } as const;
}

export function verdictOf(
  of: Demand,
  verdict: DemandVerdict['verdict'],
  value: Stated | null,
  conformityProbability: number | null,
): DemandVerdict {
  return {
    demand: of,
    verdict,
    speaks: true,
    value,
    conformityProbability,
    reason: 'Judged: in the fixture, by hand.',
  };
}

export function silentOn(of: Demand, reason: string): DemandVerdict {
  return { demand: of, verdict: 'not proven', speaks: false, value: null, conformityProbability: null, reason };
}

export type RunChoice = {
  readonly id?: string;
  readonly startedAtUtc?: string;
  readonly pump?: PumpRecord;
  readonly isPractice?: boolean;
  readonly verdicts?: readonly DemandVerdict[];
};

/** A delivery run that meets its flow and its efficiency by far. */
export function deliveryRun(choice: RunChoice = {}): CertifiedRun {
  const { id = '20260611-delivery-1', startedAtUtc = '2026-06-11T08:15:00Z', pump = feedPump() } = choice;
  return sealed(runOf('delivery', id, startedAtUtc, pump), {
    ...common(choice.isPractice ?? false),
    delivery: { holds: holds(), law: { ok: true, value: LAW }, capacityRatio: stated(0.99371, 0.0051), fitted: null },
    dryLift: null,
    verdicts: choice.verdicts ?? [
      verdictOf(FLOW_DEMAND, 'pass', stated(1.97312e-4, 9.4e-7), 1),
      verdictOf(EFFICIENCY_DEMAND, 'pass', stated(0.95361, 0.0024), 1),
      silentOn(PRIMING_DEMAND, 'A delivery run does not speak to dry priming.'),
    ],
    outcome: 'pass',
  });
}

/** A dry start from 0.45 m that primed after 5.3 s. */
export function dryLiftRun(choice: RunChoice = {}): CertifiedRun {
  const { id = '20260611-drylift-1', startedAtUtc = '2026-06-11T07:30:00Z', pump = feedPump() } = choice;
  return sealed(runOf('dryLift', id, startedAtUtc, pump), {
    ...common(choice.isPractice ?? false),
    delivery: null,
    dryLift: {
      priming: {
        ok: true,
        value: {
          primed: true,
          primingTimeS: stated(5.314, 0.06),
          motorStartS: 4.02,
          sustainedDeliveryS: 9.334,
        },
      },
      events: {
        motorStart: { seen: true, atS: stated(4.02, 0.01), from: 'speed' },
        firstSuction: { seen: true, atS: stated(4.17, 0.03), from: 'suctionPressure' },
        oilAtInlet: { seen: true, atS: stated(8.31, 0.09), from: 'suctionPressure' },
        oilAtOutlet: { seen: true, atS: stated(9.12, 0.04), from: 'flow' },
        sustainedDelivery: { seen: true, atS: stated(9.334, 0.06), from: 'flow' },
      },
      diagnosis: null,
      riser: [],
      estimate: { ok: true, value: INVENTED_ESTIMATE },
      speedRevPerS: 9.98,
      staticLiftM: 0.45,
      wetness: 'W1',
      barometerPa: BAROMETER_PA,
      oilDensityKgPerM3: 868.4,
      lowestSuctionPressurePa: stated(97_281, 71),
      // 101 325 − 868.4 × 9.806 65 × 0.45 = 97 492.7
      columnPressurePa: 97_492.7,
    },
    verdicts: choice.verdicts ?? [
      silentOn(FLOW_DEMAND, 'A dry start does not speak to delivery.'),
      silentOn(EFFICIENCY_DEMAND, 'A dry start does not speak to delivery.'),
      verdictOf(PRIMING_DEMAND, 'pass', stated(5.314, 0.06), 1),
    ],
    outcome: 'pass',
  });
}

/** Readings of that dry start: the suction pressure falls, stands, and the flow arrives. */
export function dryLiftReadings(): DecimatedReadings {
  const elapsedS = Array.from({ length: 301 }, (_, row) => row * 0.05);
  const lift = (s: number) => Math.min(1, Math.max(0, (s - 4.02) / 4.29));
  return {
    elapsedS,
    channels: {
      suctionPressure: elapsedS.map((s) => BAROMETER_PA - 3900 * lift(s) ** 0.7 - 40 * Math.sin(9 * s)),
      flow: elapsedS.map((s) => (s < 9.2 ? 0 : 1.2e-4 * (1 - Math.exp(-(s - 9.2) / 0.3)))),
    },
  };
}

/** What a certificate on these runs is asked for. */
export function certificateRequest(runs: readonly CertifiedRun[]): CertificateRequest {
  return {
    number: '2026-0001',
    issuedAtUtc: '2026-06-12T09:00:00Z',
    dateDoubts: [],
    signatory: 'H. Wiese (invented)',
    workshop: 'Kanalbau Gearbox Works (invented)',
    replaces: null,
    place: { previous: null, notices: [] },
    handover: null,
    programVersion: '0.1.0',
    runs,
    together: [],
  };
}

/** The certificate on these runs. */
export function builtCertificate(runs: readonly CertifiedRun[]): CertificateData {
  return accepted(buildCertificate(certificateRequest(runs)));
}
