import { type Outline, polygonArea } from './polygon.ts';

/** A closed line of the drawing of a pump, in the plane square to its shafts. */
export type OutlinePart = {
  /** 'rotor', 'vane 3', 'housing', … */
  readonly name: string;
  /** What the line encloses: a hole in the body, or metal that moves in it. Parts are drawn in their order. */
  readonly encloses: 'bore' | 'metal';
  readonly outline: Outline;
};

/** Points of a full circle in a drawing where nobody asks for more [1]. */
export const POINTS_PER_TURN = 360;

/**
 * Area between the outlines: all bores less all metal. True where no part covers another.
 *
 * @param parts - of a pump's cross-section [m]
 * @returns area left to the oil [m²]
 */
export function openArea(parts: readonly OutlinePart[]): number {
  return parts.reduce((sum, { encloses, outline }) => sum + (encloses === 'bore' ? 1 : -1) * polygonArea(outline), 0);
}
