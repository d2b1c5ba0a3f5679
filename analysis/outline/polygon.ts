/** A point of a cross-section, in the plane square to the shafts; x to the right, y up. */
export type Point = { readonly xM: number; readonly yM: number };

/** A closed line through its points, counter-clockwise; the last point is joined to the first. */
export type Outline = readonly Point[];

/**
 * Area inside a closed line, A = ½ Σ (x_i y_{i+1} − x_{i+1} y_i), with the first point as origin.
 *
 * @param outline - points in order; counter-clockwise is positive [m]
 * @returns area, negative if the points run clockwise [m²]
 *
 * Source: the shoelace formula.
 */
export function polygonArea(outline: Outline): number {
  const origin = outline[0];
  let from = outline.at(-1);
  if (origin === undefined || from === undefined) return 0;
  let twice = 0;
  for (const to of outline) {
    twice += (from.xM - origin.xM) * (to.yM - origin.yM) - (to.xM - origin.xM) * (from.yM - origin.yM);
    from = to;
  }
  return twice / 2;
}

/**
 * An outline turned about the origin.
 *
 * @param outline - points in order [m]
 * @param angleRad - counter-clockwise [rad]
 * @returns the turned points in the same order [m]
 */
export function rotated(outline: Outline, angleRad: number): Outline {
  const cos = Math.cos(angleRad);
  const sin = Math.sin(angleRad);
  return outline.map(({ xM, yM }) => ({ xM: xM * cos - yM * sin, yM: xM * sin + yM * cos }));
}

/**
 * An outline shifted in the plane.
 *
 * @param outline - points in order [m]
 * @param dxM - to the right [m]
 * @param dyM - up [m]
 * @returns the shifted points in the same order [m]
 */
export function moved(outline: Outline, dxM: number, dyM: number): Outline {
  return outline.map(({ xM, yM }) => ({ xM: xM + dxM, yM: yM + dyM }));
}

/**
 * Whether a point lies inside an outline (even-odd rule: a ray to the right crosses it an odd number of times).
 *
 * @param outline - points in order [m]
 * @param point - to be tested; on the line itself either answer may come [m]
 * @returns true inside [-]
 */
export function isInside(outline: Outline, point: Point): boolean {
  let inside = false;
  let from = outline.at(-1) ?? point;
  for (const to of outline) {
    if (from.yM > point.yM !== to.yM > point.yM) {
      const crossingM = from.xM + ((point.yM - from.yM) / (to.yM - from.yM)) * (to.xM - from.xM);
      if (point.xM < crossingM) inside = !inside;
    }
    from = to;
  }
  return inside;
}

/**
 * Distance of a point from a straight edge between two others.
 *
 * @param point - anywhere [m]
 * @param from - one end of the edge [m]
 * @param to - the other end [m]
 * @returns distance [m]
 */
export function distanceToEdge(point: Point, from: Point, to: Point): number {
  const alongXM = to.xM - from.xM;
  const alongYM = to.yM - from.yM;
  const lengthM2 = alongXM * alongXM + alongYM * alongYM;
  const product = (point.xM - from.xM) * alongXM + (point.yM - from.yM) * alongYM;
  const share = lengthM2 === 0 ? 0 : Math.min(1, Math.max(0, product / lengthM2));
  return Math.hypot(point.xM - from.xM - share * alongXM, point.yM - from.yM - share * alongYM);
}

/**
 * Shortest distance of a point from the line of an outline.
 *
 * @param outline - points in order, one at the least [m]
 * @param point - inside or outside [m]
 * @returns distance [m]
 * @throws RangeError if the outline has no point
 */
export function distanceToOutline(outline: Outline, point: Point): number {
  let from = outline.at(-1);
  if (from === undefined) throw new RangeError('outline: has no point');
  let shortestM = Number.POSITIVE_INFINITY;
  for (const to of outline) {
    shortestM = Math.min(shortestM, distanceToEdge(point, from, to));
    from = to;
  }
  return shortestM;
}

/** Left, right, lower and upper end of an outline. */
function extentOf(outline: Outline): { left: number; right: number; bottom: number; top: number } {
  const extent = {
    left: Number.POSITIVE_INFINITY,
    right: Number.NEGATIVE_INFINITY,
    bottom: Number.POSITIVE_INFINITY,
    top: Number.NEGATIVE_INFINITY,
  };
  for (const { xM, yM } of outline) {
    extent.left = Math.min(extent.left, xM);
    extent.right = Math.max(extent.right, xM);
    extent.bottom = Math.min(extent.bottom, yM);
    extent.top = Math.max(extent.top, yM);
  }
  return extent;
}

/** How deep the deepest point of one outline lies inside the other [m]. */
function deepestPointM(points: Outline, inside: Outline): number {
  const { left, right, bottom, top } = extentOf(inside);
  let deepestM = 0;
  for (const point of points) {
    if (point.xM < left || point.xM > right || point.yM < bottom || point.yM > top) continue;
    if (isInside(inside, point)) deepestM = Math.max(deepestM, distanceToOutline(inside, point));
  }
  return deepestM;
}

/**
 * How far two bodies overlap: the greatest depth of a point of either inside the other.
 *
 * @param one - closed outline [m]
 * @param other - closed outline [m]
 * @returns depth; 0 where no point of either lies in the other [m]
 */
export function overlapDepth(one: Outline, other: Outline): number {
  return Math.max(deepestPointM(one, other), deepestPointM(other, one));
}

/**
 * How far a body stands out of the hole that it should lie in: the greatest depth of a point of the body outside the
 * hole, or of a point of the hole's edge inside the body.
 *
 * @param body - closed outline [m]
 * @param hole - closed outline [m]
 * @returns depth; 0 where the body lies within the hole [m]
 */
export function protrusionDepth(body: Outline, hole: Outline): number {
  let deepestM = deepestPointM(hole, body);
  for (const point of body) {
    if (!isInside(hole, point)) deepestM = Math.max(deepestM, distanceToOutline(hole, point));
  }
  return deepestM;
}
