import { type PumpRecord, pumpRecord } from '../../../../analysis/records/pumpRecord.ts';
import type { Tree } from '../../forms/nested.ts';
import { parseTree } from '../../forms/parseRecord.ts';
import { PumpDrawing } from '../PumpDrawing.tsx';
import { SweptVolumeFacts } from '../SweptVolumeFacts.tsx';

/** Everything of a record but its geometry, so that a geometry can be read before the rest is typed. */
const STAND_IN = {
  format: 'slipwright.pump/1',
  id: 'typed-now',
  version: 1,
  name: 'this pump',
  type: 'screw',
  serialNumber: '0',
  maker: '–',
  rotation: 'clockwise',
  speedRangeRevPerS: { min: 0, max: 1 },
  mayRunDry: false,
  duty: null,
} as const;

function standInWith(geometry: Tree): PumpRecord | null {
  const read = parseTree(pumpRecord, { ...STAND_IN, geometry });
  return read.ok ? read.value : null;
}

/** What the geometry says as far as it is typed: drawing and swept volume, or what is still to come. */
export function TypedGeometry({ geometry }: { readonly geometry: Tree }) {
  const pump = standInWith(geometry);
  if (pump === null) {
    return <p class="faint">Once the measurements are whole, the pump stands here to scale with its swept volume.</p>;
  }
  return (
    <>
      <PumpDrawing pump={pump} />
      <SweptVolumeFacts pump={pump} />
    </>
  );
}
