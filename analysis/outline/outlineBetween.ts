import { distanceToEdge, type Outline, type Point } from './polygon.ts';

/** Index of the end of the edge that lies nearest to a point. */
function nearestEdgeEnd(outline: Outline, point: Point): number {
  let nearestM = Number.POSITIVE_INFINITY;
  let nearest = 0;
  for (const [index, to] of outline.entries()) {
    const distanceM = distanceToEdge(point, outline.at(index - 1) ?? to, to);
    if (distanceM < nearestM) {
      nearestM = distanceM;
      nearest = index;
    }
  }
  return nearest;
}

/**
 * The stretch of an outline from one point on it to another, counter-clockwise.
 *
 * @param outline - closed outline [m]
 * @param from - first point, on the outline or within a chord's height of it [m]
 * @param to - last point, likewise; not on the same edge before `from` [m]
 * @returns both points and every point of the outline between them [m]
 */
export function outlineBetween(outline: Outline, from: Point, to: Point): Outline {
  const start = nearestEdgeEnd(outline, from);
  const end = nearestEdgeEnd(outline, to);
  const between =
    start <= end ? outline.slice(start, end) : [...outline.slice(start, outline.length), ...outline.slice(0, end)];
  return [from, ...between, to];
}
