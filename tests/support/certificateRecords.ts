import { type Demand, demand } from '../../analysis/records/dutyRecord.ts';
import { oilRecord } from '../../analysis/records/oilRecord.ts';
import { type PumpRecord, pumpRecord } from '../../analysis/records/pumpRecord.ts';
import { type RunRecord, runRecord } from '../../analysis/records/runRecord.ts';
import { inventedBench } from './benchRecord.ts';

/** What certificates rest on: an invented workshop that rebuilds the reduction gearbox of a canal dredger. */

export const BAROMETER_PA = 101_325;

const at = { speedRevPerS: 15, differentialPressurePa: 300_000, oilTemperatureK: 318.15 };

export const FLOW_DEMAND: Demand = demand.parse({
  id: 'feed-flow',
  origin: "machine's own calculation",
  note: 'four bearings and the mesh spray, oil hot',
  quantity: 'deliveredFlow',
  at,
  atLeastM3PerS: 1.75e-4,
});
export const EFFICIENCY_DEMAND: Demand = demand.parse({
  id: 'efficiency',
  origin: 'house limit',
  quantity: 'volumetricEfficiency',
  at,
  atLeast: 0.85,
});
export const PRIMING_DEMAND: Demand = demand.parse({
  id: 'priming',
  origin: 'as found before the strip',
  quantity: 'primingTime',
  staticLiftM: 0.45,
  atMostSpeedRevPerS: 10,
  wetness: 'W1',
  atMostS: 8,
});

export function feedPump(
  demands: readonly Demand[] | null = [FLOW_DEMAND, EFFICIENCY_DEMAND, PRIMING_DEMAND],
): PumpRecord {
  return pumpRecord.parse({
    format: 'slipwright.pump/1',
    id: 'dredger-feed-pump',
    version: 3,
    name: 'Bearing feed pump, reduction gearbox',
    type: 'external gear',
    serialNumber: 'KB-204',
    maker: 'not known (plate lost)',
    owner: 'Bagger 7, canal maintenance (invented)',
    rotation: 'clockwise',
    speedRangeRevPerS: { min: 5, max: 20 },
    mayRunDry: true,
    geometry: {
      kind: 'externalGear',
      toothCount: { driver: 12, driven: 12 },
      moduleM: 0.003,
      pressureAngleRad: Math.PI / 9,
      tipDiameterM: { value: 0.042, standardUncertainty: 1e-5 },
      runningCentreDistanceM: { value: 0.036, standardUncertainty: 1e-5 },
      faceWidthM: { value: 0.02, standardUncertainty: 1e-5 },
      hasReliefGrooves: true,
      backlashM: { value: 1.2e-4, standardUncertainty: 2e-5 },
      tipClearanceM: { value: 4e-5, standardUncertainty: 1e-5 },
      endFloatM: { value: 5e-5, standardUncertainty: 1e-5 },
    },
    duty:
      demands === null
        ? null
        : { machine: 'reduction gearbox of the canal dredger Bagger 7 (invented)', demands: [...demands] },
  });
}

/** Its oil. */
const OIL = oilRecord.parse({
  name: 'Kanalöl 46 (invented)',
  viscosityBasis: 'measured',
  lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 46.2e-6 },
  upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 6.8e-6 },
  viscosityRelativeStandardUncertainty: 0.01,
  densityAt15CKgPerM3: 879,
  densityRelativeStandardUncertainty: 0.001,
});

/** A run of it, on a bench of its own. */
export function runOf(kind: RunRecord['kind'], id: string, startedAtUtc: string, pump: PumpRecord): RunRecord {
  return runRecord.parse({
    format: 'slipwright.run/1',
    id,
    kind,
    label: 'as rebuilt',
    startedAtUtc,
    startedMonotonicUs: 0,
    source: { kind: 'port', path: '/dev/ttyUSB0' },
    pump,
    bench: { ...inventedBench(), name: 'Bench by the window', workshop: 'Kanalbau Gearbox Works (invented)' },
    oil: OIL,
    setUp: {
      barometerPa: { value: BAROMETER_PA, standardUncertainty: 50 },
      staticLiftM: { value: 0.45, standardUncertainty: 0.003 },
      suctionPipeBoreM: 0.02,
      suctionPipeLengthM: 1.2,
      deadVolumeM3: 2e-5,
      deliveryLineVolumeM3: { value: 3e-5, standardUncertainty: 3e-6 },
      wetness: 'W1',
    },
    operator: 'H. Wiese (invented)',
    programVersion: '0.1.0',
  });
}
