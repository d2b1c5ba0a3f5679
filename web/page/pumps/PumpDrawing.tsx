import { printFixed } from '../../../analysis/formatStated.ts';
import { outlineFrame, outlinePath, scaleBarLength } from '../../../analysis/outline/outlineFrame.ts';
import { outlineOf } from '../../../analysis/outline/outlineOf.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';

/** Width of the drawing in its own units; the page scales it. */
const WIDTH = 480;
const MARGIN = 8;
const BAR_ROOM = 28;

/** The pump's own elements to scale, from the measurements of its record. */
export function PumpDrawing({
  pump,
  shaftAngleRad = 0,
}: {
  readonly pump: PumpRecord;
  readonly shaftAngleRad?: number;
}) {
  const parts = outlineOf(pump.geometry, shaftAngleRad);
  if (!parts.ok) return <p class="faint">{parts.reason.text}</p>;
  // The frame of the pump at rest: a drawing that turns must not breathe.
  const atRest = outlineOf(pump.geometry, 0);
  const frame = outlineFrame(atRest.ok ? atRest.value : parts.value);
  const unitsPerM = WIDTH / frame.widthM;
  const height = frame.heightM * unitsPerM;
  const barM = scaleBarLength(frame);
  const barMm = printFixed(differenceFrom(barM, unitOf('mm')), 0);
  const viewBox = [-MARGIN, -MARGIN, WIDTH + 2 * MARGIN, height + 2 * MARGIN + BAR_ROOM].join(' ');
  const label = `Cross-section of ${pump.name} to scale: ${parts.value.map(({ name }) => name).join(', ')}`;
  return (
    <svg class="pump-drawing" data-testid="pump-drawing" viewBox={viewBox} role="img" aria-label={label}>
      {parts.value.map(({ name, encloses, outline }) => (
        <path key={name} class={encloses} d={outlinePath(outline, frame, unitsPerM)} />
      ))}
      <path class="scale-bar" d={`M0,${height + 16}h${barM * unitsPerM}`} />
      <text x={barM * unitsPerM + 8} y={height + 21}>
        {barMm} mm
      </text>
    </svg>
  );
}
