import { printFixed } from '../../../analysis/formatStated.ts';
import { niceTicks } from './niceTicks.ts';

type Axis = {
  readonly min: number;
  readonly max: number;
  readonly label: string;
  readonly place: (value: number) => number;
};

/** Frame, hairline grid, ticks and what the axes carry. */
export function ChartAxes({
  x,
  y,
  frame,
}: {
  readonly x: Axis;
  readonly y: Axis;
  readonly frame: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
}) {
  const { left, right, top, bottom } = frame;
  const xTicks = niceTicks(x.min, x.max, Math.max(4, Math.floor((right - left) / 88)));
  const yTicks = niceTicks(y.min, y.max, 5);
  return (
    <g>
      {yTicks.ticks.map((tick) => (
        <g key={tick}>
          <path class="grid" d={`M${left},${y.place(tick)}H${right}`} />
          <text class="axis-text" x={left - 8} y={y.place(tick) + 5} text-anchor="end">
            {printFixed(tick, yTicks.decimals)}
          </text>
        </g>
      ))}
      {xTicks.ticks.map((tick) => (
        <g key={tick}>
          <path class="frame" d={`M${x.place(tick)},${bottom}v5`} />
          <text class="axis-text" x={x.place(tick)} y={bottom + 20} text-anchor="middle">
            {printFixed(tick, xTicks.decimals)}
          </text>
        </g>
      ))}
      <path class="frame" d={`M${left},${top}V${bottom}H${right}`} />
      <text class="axis-text" x={right} y={bottom + 40} text-anchor="end">
        {x.label}
      </text>
      <text class="axis-text" x={left - 48} y={16}>
        {y.label}
      </text>
    </g>
  );
}
