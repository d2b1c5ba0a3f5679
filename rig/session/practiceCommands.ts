import type { BenchAction } from '../../analysis/guide/runGuide.ts';
import { readingFrom, unitOf } from '../../analysis/units.ts';

/** What a hand would do, in the words that the practice bench takes on its line. */
export function practiceCommand(action: BenchAction): string {
  switch (action.kind) {
    case 'setSpeed':
      return `speed ${readingFrom(action.speedRevPerS, unitOf('r/min'), 0).toFixed(1)}`;
    case 'setDeliveryPressure':
      return `pressure ${(action.gaugePressurePa / unitOf('bar(g)').siPerUnit).toFixed(3)}`;
    case 'openValve':
      return 'valve 1';
    case 'flood':
      return 'flood';
    case 'emptyAndOil':
      return 'dry';
  }
}
