import { type Outline, type Point, polygonArea, rotated } from '../../analysis/outline/polygon.ts';

/** Where the ray from the origin at an angle meets an outline around it. */
function onRay(outline: Outline, angleRad: number): Point {
  const lying = rotated(outline, -angleRad);
  for (const [index, to] of lying.entries()) {
    const from = lying.at(index - 1);
    if (from === undefined || from.yM > 0 || to.yM <= 0) continue;
    const xM = from.xM + ((to.xM - from.xM) * -from.yM) / (to.yM - from.yM);
    if (xM > 0) return { xM: xM * Math.cos(angleRad), yM: xM * Math.sin(angleRad) };
  }
  throw new Error('the outline does not run around the origin');
}

/** Area of an outline around the origin between two rays less than a turn apart [m²]. */
export function wedgeArea(outline: Outline, fromRad: number, toRad: number): number {
  const behind = ({ xM, yM }: Point): number => {
    const turn = (Math.atan2(yM, xM) - fromRad) % (2 * Math.PI);
    return turn < 0 ? turn + 2 * Math.PI : turn;
  };
  const within = outline
    .map((point) => ({ point, behindRad: behind(point) }))
    .filter(({ behindRad }) => behindRad > 0 && behindRad < toRad - fromRad)
    .sort((a, b) => a.behindRad - b.behindRad)
    .map(({ point }) => point);
  return polygonArea([{ xM: 0, yM: 0 }, onRay(outline, fromRad), ...within, onRay(outline, toRad)]);
}
