import type { BenchAction } from '../../analysis/guide/guideSetting.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import { differenceFrom, unitOf } from '../../analysis/units.ts';

/** What a hand would do, in the words that the practice bench takes on its line. */
export function practiceCommand(action: BenchAction): string {
  switch (action.kind) {
    case 'setSpeed':
      return `speed ${differenceFrom(action.speedRevPerS, unitOf('r/min')).toFixed(1)}`;
    case 'setDeliveryPressure':
      return `pressure ${differenceFrom(action.gaugePressurePa, unitOf('bar(g)')).toFixed(3)}`;
    case 'rampDeliveryPressure':
      return `ramp ${differenceFrom(action.gaugePressurePa, unitOf('bar(g)')).toFixed(3)} ${action.overS.toFixed(1)}`;
    case 'setSuctionPressure':
      return `inlet ${differenceFrom(action.absolutePressurePa, unitOf('bar(a)')).toFixed(3)}`;
    case 'openSuction':
      return 'suction 1';
    case 'shutSuctionAtPump':
      return 'blank 1';
    case 'openSuctionAtPump':
      return 'blank 0';
    case 'openValve':
      return 'valve 1';
    case 'flood':
      return 'flood';
    case 'emptyAndOil':
      return 'dry';
  }
}

/** The practice pump that stands for a pump record, put on the bench: the one that leaks and fills most alike. */
export function mountCommand({ type }: Pick<PumpRecord, 'type'>): string {
  switch (type) {
    case 'twin screw':
    case 'three screw':
    case 'screw':
      return 'pump screw';
    case 'internal gear':
    case 'trochoid rotor set':
      return 'pump internalGear';
    default:
      return 'pump externalGear';
  }
}
