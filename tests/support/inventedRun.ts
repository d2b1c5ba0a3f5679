import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import { type RunKind, type RunRecord, runRecord } from '../../analysis/records/runRecord.ts';
import { inventedBench } from './benchRecord.ts';
import { samplePump } from './samples.ts';

/** A run record of the sample pump on the invented bench. */
export function inventedRun(kind: RunKind, bench: BenchRecord = inventedBench()): RunRecord {
  return runRecord.parse({
    format: 'slipwright.run/1',
    id: '2026-06-01-0001',
    kind,
    label: 'as rebuilt',
    startedAtUtc: '2026-06-01T08:00:00Z',
    startedMonotonicUs: 0,
    source: { kind: 'port', path: '/dev/invented' },
    pump: samplePump('dredger-feed-pump'),
    bench,
    oil: {
      name: 'invented VG 68',
      viscosityBasis: 'measured',
      lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 68e-6 },
      upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 8.7e-6 },
      viscosityRelativeStandardUncertainty: 0.01,
      densityAt15CKgPerM3: 875,
      densityRelativeStandardUncertainty: 0.002,
    },
    setUp: {
      barometerPa: { value: 101325, standardUncertainty: 50 },
      staticLiftM: { value: 0.45, standardUncertainty: 0.005 },
      suctionPipeBoreM: 0.025,
      suctionPipeLengthM: 0.8,
      deadVolumeM3: 60e-6,
      deliveryLineVolumeM3: { value: 0, standardUncertainty: 0 },
      wetness: 'W1',
    },
    operator: 'invented',
    programVersion: 'test',
  });
}
