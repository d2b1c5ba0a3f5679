import { describe, expect, it } from 'vitest';
import { buildCertificate } from '../../../analysis/certificate/buildCertificate.ts';
import { certificateData } from '../../../analysis/certificate/certificateData.ts';
import type { CertifiedRun } from '../../../analysis/certificate/certifiedRun.ts';
import { EFFICIENCY_DEMAND, FLOW_DEMAND, feedPump, PRIMING_DEMAND } from '../../support/certificateRecords.ts';
import {
  builtCertificate,
  certificateRequest,
  deliveryRun,
  dryLiftRun,
  silentOn,
  stated,
  verdictOf,
} from '../../support/certificateRuns.ts';

function refused(runs: readonly CertifiedRun[]): string {
  const certificate = buildCertificate(certificateRequest(runs));
  if (certificate.ok) throw new Error('was built');
  expect(certificate.reason.text.length).toBeGreaterThan(20);
  return certificate.reason.code;
}

function withBench(certified: CertifiedRun, change: Partial<CertifiedRun['run']['bench']>): CertifiedRun {
  return { ...certified, run: { ...certified.run, bench: { ...certified.run.bench, ...change } } };
}

describe('a certificate says what its runs say', () => {
  it('passes when each demand is met by the run that speaks to it', () => {
    const certificate = builtCertificate([deliveryRun(), dryLiftRun()]);
    expect(certificate.outcome).toBe('pass');
    expect(certificate.title).toBe('Certificate of test: pass');
    expect(certificate.demands.map(({ runId }) => runId)).toEqual([
      '20260611-delivery-1',
      '20260611-delivery-1',
      '20260611-drylift-1',
    ]);
  });

  it('is plain JSON that its own schema reads back unchanged', () => {
    const certificate = builtCertificate([deliveryRun(), dryLiftRun()]);
    expect(certificateData.parse(JSON.parse(JSON.stringify(certificate)))).toEqual(certificate);
  });

  it('is not proven where no run speaks to a demand, and says why', () => {
    const certificate = builtCertificate([deliveryRun()]);
    expect(certificate.outcome).toBe('not proven');
    expect(certificate.demands[2]).toMatchObject({
      verdict: 'not proven',
      runId: null,
      value: null,
      reason: 'No run speaks to it. A delivery run does not speak to dry priming.',
    });
    expect(certificate.sentence).toContain('dry priming time');
  });

  it('fails when one demand fails, whatever the others say', () => {
    const failing = dryLiftRun({ verdicts: [verdictOf(PRIMING_DEMAND, 'fail', null, 0)] });
    const certificate = builtCertificate([deliveryRun(), failing]);
    expect(certificate.outcome).toBe('fail');
    expect(certificate.sentence).toContain('Failed: dry priming time');
  });

  it('takes the latest of two runs that speak to the same demand, in whatever order they are named', () => {
    const verdicts = [
      verdictOf(FLOW_DEMAND, 'fail', stated(1.6e-4, 9e-7), 0),
      verdictOf(EFFICIENCY_DEMAND, 'fail', stated(0.8, 0.002), 0),
      silentOn(PRIMING_DEMAND, 'silent'),
    ];
    const earlier = deliveryRun({ id: 'earlier', startedAtUtc: '2026-06-10T08:00:00Z', verdicts });
    // 08:15:00.500 is later than 08:15:00, though it sorts before it as text.
    const later = deliveryRun({ id: 'later', startedAtUtc: '2026-06-11T08:15:00.500Z' });
    const between = deliveryRun({ id: 'between', startedAtUtc: '2026-06-11T08:15:00Z', verdicts });
    for (const runs of [
      [earlier, between, later, dryLiftRun()],
      [later, dryLiftRun(), between, earlier],
    ]) {
      expect(builtCertificate(runs).outcome).toBe('pass');
      expect(builtCertificate(runs).demands[0]?.runId).toBe('later');
    }
  });

  it("is 'measured' for a pump without a duty, and for a bench with an uncalibrated channel", () => {
    expect(builtCertificate([deliveryRun({ pump: feedPump(null), verdicts: [] })]).outcome).toBe('measured');
    const run = deliveryRun();
    const channels = run.run.bench.channels.map((channel) => ({ ...channel, calibration: null }));
    expect(builtCertificate([withBench(run, { channels }), dryLiftRun()]).outcome).toBe('measured');
  });

  it("is 'measured' where no run speaks to any demand", () => {
    const silent = deliveryRun({ verdicts: [silentOn(FLOW_DEMAND, 'no'), silentOn(EFFICIENCY_DEMAND, 'no')] });
    expect(builtCertificate([silent]).outcome).toBe('measured');
  });

  it('is a SPECIMEN, in the title too, when one run comes from the practice bench', () => {
    const certificate = builtCertificate([deliveryRun({ isPractice: true }), dryLiftRun()]);
    expect(certificate.isSpecimen).toBe(true);
    expect(certificate.title).toBe('SPECIMEN. Certificate of test: pass');
  });

  it('carries value, uncertainty and budget of a judged demand as the result has them', () => {
    const [flow] = builtCertificate([deliveryRun(), dryLiftRun()]).demands;
    expect(flow?.value).toMatchObject({ value: 1.97312e-4, standardUncertainty: 9.4e-7, coverageFactor: 2 });
    expect(flow?.value?.budget[0]?.label).toBe('flow, gain of the instrument');
  });

  it('says of a dry start that did not prime that the lift is not proven', () => {
    const run = dryLiftRun();
    if (run.result.dryLift === null) throw new Error('fixture');
    const priming = { ok: true, value: { primed: false, motorStartS: 4, watchedForS: 20 } } as const;
    const certificate = builtCertificate([
      { ...run, result: { ...run.result, dryLift: { ...run.result.dryLift, priming } } },
    ]);
    expect(certificate.dryLift[0]?.inWords).toContain('Dry lift not proven at 0.450 m');
    expect(certificate.dryLift[0]?.watchedForS).toBe(20);
  });
});

describe('a certificate is refused', () => {
  it('without runs', () => expect(refused([])).toBe('NO_RUNS'));

  it('when a run is named twice', () => expect(refused([deliveryRun(), deliveryRun()])).toBe('SAME_RUN_TWICE'));

  it('across two versions of a pump', () => {
    const other = dryLiftRun({ pump: { ...feedPump(), version: 4 } });
    expect(refused([deliveryRun(), other])).toBe('DIFFERENT_PUMPS');
  });

  it('for a run that failed or was cut off', () => {
    for (const ending of ['failed', 'recovered'] as const) {
      const run = deliveryRun();
      expect(refused([{ ...run, closing: { ...run.closing, ending } }])).toBe('NOT_WHOLE');
    }
  });

  it('for a run whose finding is unfit, naming it', () => {
    const run = deliveryRun();
    const findings = [{ code: 'OUT_OF_RANGE', severity: 'unfit', text: 'flow stood outside its range' }] as const;
    const certificate = buildCertificate(certificateRequest([{ ...run, result: { ...run.result, findings } }]));
    expect(certificate).toMatchObject({ ok: false, reason: { code: 'NOT_FIT', finding: { code: 'OUT_OF_RANGE' } } });
  });

  it('when a calibration was due the day before the run, and not when it is due on the day', () => {
    // The invented bench's calibrations are due on 2027-03-01.
    expect(refused([deliveryRun({ startedAtUtc: '2027-03-02T00:00:01Z' })])).toBe('CALIBRATION_OUT_OF_DATE');
    expect(builtCertificate([deliveryRun({ startedAtUtc: '2027-03-01T23:59:59Z' })]).outcome).toBe('not proven');
  });

  it('to a caller who mixes up runs and results', () => {
    const run = deliveryRun();
    expect(() => builtCertificate([{ ...run, result: { ...run.result, runId: 'other' } }])).toThrow(RangeError);
    expect(() => builtCertificate([{ ...run, closing: { ...run.closing, runId: 'other' } }])).toThrow(RangeError);
  });
});
