import { type BenchRecord, benchRecord } from '../../analysis/records/benchRecord.ts';

const CALIBRATION = { reference: 'invented-1', calibratedOn: '2026-03-01', dueOn: '2027-03-01' };

function channel(
  name: string,
  position: number,
  unit: string,
  range: [number, number],
  gain: number,
  offset: number,
  lagS: number,
) {
  return {
    channel: name,
    position,
    unit,
    range: { min: range[0], max: range[1] },
    lagS,
    instrument: `invented ${name} instrument`,
    calibration: {
      ...CALIBRATION,
      gain: { standardUncertainty: gain, shape: 'normal' },
      offset: { standardUncertainty: offset, shape: 'normal' },
    },
  };
}

/** An invented bench with the five channels that holds need, all calibrated. */
export function inventedBench(): BenchRecord {
  return benchRecord.parse({
    format: 'slipwright.bench/1',
    id: 'invented-bench',
    version: 1,
    name: 'Invented bench',
    workshop: 'Invented workshop',
    wire: { baudRate: 115200 },
    channels: [
      channel('suctionPressure', 1, 'bar(a)', [0, 2], 0.0005, 0.0005, 0.02),
      channel('deliveryPressure', 2, 'bar(g)', [-1, 16], 0.0015, 0.003, 0.02),
      channel('flow', 3, 'l/min', [-1, 40], 0.003, 0.005, 0.06),
      channel('speed', 4, 'r/min', [0, 3000], 0.0003, 0.05, 0.05),
      channel('oilTemperature', 5, 'degC', [0, 120], 0, 0.2, 1),
    ],
  });
}
