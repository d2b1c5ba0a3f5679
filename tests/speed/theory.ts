import { sweptVolumeOf } from '../../analysis/displacement/sweptVolume.ts';
import { oilState } from '../../analysis/oil/oilState.ts';
import type { Outcome } from '../../analysis/outcome.ts';
import { gearVolumeByArea } from '../../analysis/outline/gearVolumeByArea.ts';
import { lobeVolumeByArea } from '../../analysis/outline/lobe.ts';
import { trochoidVolumeByArea } from '../../analysis/outline/trochoid.ts';
import type { PumpGeometry } from '../../analysis/records/pumpRecord.ts';
import { forwardSlip } from '../../analysis/slip/forwardSlip.ts';
import { gapMapOf } from '../../analysis/slip/gapMapOf.ts';
import { predictSlip } from '../../analysis/slip/predictSlip.ts';
import { accepted } from '../support/accepted.ts';
import { INVENTED_VG46 } from '../support/inventedOil.ts';
import { CUT_BACK_RING, meshOf, TWELVE_TEETH } from '../support/meshOf.ts';
import { EXAMPLE_PUMPS } from './examplePumps.ts';
import { EXAMPLE_STRIP_SHEET } from './exampleStripSheet.ts';
import { medianUs, referenceLoop } from './stopwatch.ts';

/**
 * How long the theory takes: median time of a call in microseconds, and against a loop that never changes, measured in the
 * same run, so that two machines can be compared. Run by hand: node --import tsx tests/speed/theory.ts
 */

const SLIP_STATE = { oil: INVENTED_VG46, temperatureK: 333.15, differentialPressurePa: 3e5, speedRevPerS: 15 };

const MATERIALS = { body: 'cast iron', gears: 'steel', bushes: 'bronze' } as const;

type Timed = { readonly what: string; readonly limitUs: number; readonly work: () => number };

function sweptVolumeOfType(geometry: PumpGeometry): Timed {
  return {
    what: `swept volume, ${geometry.kind}`,
    limitUs: 1e3,
    work: () => {
      const swept = sweptVolumeOf(geometry);
      if (swept.ok) return swept.value.sweptVolume.value;
      // A drag pump has no swept volume: its refusal is timed.
      if (geometry.kind === 'plainThread') return swept.reason.value;
      throw new Error(`${geometry.kind}: ${swept.reason.text}`);
    },
  };
}

/** The second route, by the areas between the outlines drawn as polygons. */
function byArea(what: string, volume: () => Outcome<number, unknown>): Timed {
  return { what: `volume by area, ${what}`, limitUs: 50e3, work: () => accepted(volume()) };
}

const [gears, ring] = [meshOf(TWELVE_TEETH), meshOf(CUT_BACK_RING)];
const gapMap = accepted(gapMapOf(EXAMPLE_STRIP_SHEET, MATERIALS));

const timed: readonly Timed[] = [
  ...Object.values(EXAMPLE_PUMPS).map(sweptVolumeOfType),
  byArea('externalGear', () => gearVolumeByArea(gears, 0.02)),
  byArea('internalGear', () => gearVolumeByArea(ring, 0.02)),
  byArea('trochoid', () => trochoidVolumeByArea(EXAMPLE_PUMPS.trochoid)),
  byArea('lobe', () => lobeVolumeByArea(EXAMPLE_PUMPS.lobe)),
  { what: 'oil state', limitUs: 100, work: () => oilState(INVENTED_VG46, 333.15).dynamicViscosityPaS },
  {
    what: 'gap map from the strip sheet',
    limitUs: 1e3,
    work: () => accepted(gapMapOf(EXAMPLE_STRIP_SHEET, MATERIALS)).quantities.length,
  },
  {
    what: 'forward slip of a full gap map',
    limitUs: 100,
    work: () => accepted(forwardSlip(gapMap, SLIP_STATE)).slipM3PerS,
  },
  {
    what: 'the same with its uncertainty',
    limitUs: 1e3,
    work: () => accepted(predictSlip(gapMap, SLIP_STATE)).slipM3PerS.value,
  },
];

function tableLine(what: string, us: string, ratio: string, verdict: string): string {
  return `${what.padEnd(36)} ${us.padStart(10)} ${ratio.padStart(12)}   ${verdict}`;
}

const referenceUs = medianUs(referenceLoop);
console.log(tableLine('median of a call', 'µs', 'of the loop', 'limit'));
console.log(tableLine('reference loop', referenceUs.toFixed(2), '1', ''));
for (const { what, limitUs, work } of timed) {
  const us = medianUs(work);
  const isWithin = us <= limitUs;
  if (!isWithin) process.exitCode = 1;
  console.log(
    tableLine(what, us.toFixed(2), (us / referenceUs).toFixed(3), `${limitUs} µs: ${isWithin ? 'kept' : 'EXCEEDED'}`),
  );
}
