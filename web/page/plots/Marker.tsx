import type { MarkerShape } from './palette.ts';

const R = 5;

/** Outline of a marker about its centre. */
function outline(shape: MarkerShape): string {
  switch (shape) {
    case 'circle':
      return `M${-R},0a${R},${R} 0 1,0 ${2 * R},0a${R},${R} 0 1,0 ${-2 * R},0Z`;
    case 'square':
      return `M${-R},${-R}H${R}V${R}H${-R}Z`;
    case 'triangle':
      return `M0,${-R - 1}L${R + 1},${R}H${-R - 1}Z`;
    case 'diamond':
      return `M0,${-R - 2}L${R + 1},0L0,${R + 2}L${-R - 1},0Z`;
    case 'cross':
      return `M${-R},${-R}L${R},${R}M${-R},${R}L${R},${-R}`;
  }
}

/** A point of a drawing: filled, or open where two kinds of the same series stand side by side. */
export function Marker(marker: {
  readonly shape: MarkerShape;
  readonly color: string;
  readonly isOpen: boolean;
  readonly x: number;
  readonly y: number;
}) {
  return (
    <path
      d={outline(marker.shape)}
      transform={`translate(${marker.x},${marker.y})`}
      fill={marker.isOpen ? 'var(--paper)' : marker.color}
      stroke={marker.color}
      stroke-width="1.75"
    />
  );
}
