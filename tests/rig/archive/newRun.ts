import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Archive, openArchive } from '../../../rig/archive/openArchive.ts';
import type { NewRun } from '../../../rig/archive/runStore.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { samplePump } from '../../support/samples.ts';

/** A folder that is gone when the test is over. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'archive-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export function temporaryArchive(directory = temporaryFolder()): Archive {
  const archive = openArchive(directory);
  onTestFinished(() => archive.close());
  return archive;
}

/** An invented run on an invented bench. */
export function newRun(path = '/dev/ttyUSB0'): NewRun {
  return {
    kind: 'delivery',
    label: 'as rebuilt',
    startedAtUtc: '2026-11-25T09:30:00Z',
    startedMonotonicUs: 1_000_000,
    source: { kind: 'port', path },
    pump: samplePump('dredger-feed-pump'),
    bench: inventedBench(),
    oil: {
      name: 'invented mineral oil',
      viscosityBasis: 'measured',
      lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 68e-6 },
      upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 8.7e-6 },
      viscosityRelativeStandardUncertainty: 0.01,
      densityAt15CKgPerM3: 875,
      densityRelativeStandardUncertainty: 0.001,
    },
    setUp: {
      barometerPa: { value: 100_000, standardUncertainty: 50 },
      staticLiftM: { value: 0.45, standardUncertainty: 0.005 },
      suctionPipeBoreM: 0.025,
      suctionPipeLengthM: 0.8,
      deadVolumeM3: 60e-6,
      deliveryLineVolumeM3: { value: 6e-6, standardUncertainty: 5e-7 },
      wetness: 'W1',
    },
    operator: 'N. N. (invented)',
    programVersion: '0.1.0',
  };
}
