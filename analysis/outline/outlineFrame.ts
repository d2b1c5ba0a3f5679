import type { OutlinePart } from './outlinePart.ts';
import type { Outline } from './polygon.ts';

/** The smallest box around a drawing [m]. */
export type Frame = {
  readonly leftM: number;
  readonly bottomM: number;
  readonly widthM: number;
  readonly heightM: number;
};

/**
 * Box around all parts.
 *
 * @param parts - of a pump's cross-section, one or more [m]
 * @returns the box [m]
 */
export function outlineFrame(parts: readonly OutlinePart[]): Frame {
  const points = parts.flatMap(({ outline }) => outline);
  const xs = points.map(({ xM }) => xM);
  const ys = points.map(({ yM }) => yM);
  const [leftM, bottomM] = [Math.min(...xs), Math.min(...ys)];
  return { leftM, bottomM, widthM: Math.max(...xs) - leftM, heightM: Math.max(...ys) - bottomM };
}

/**
 * A closed line as the path of an SVG or a PDF, y pointing down.
 *
 * @param outline - closed line [m]
 * @param frame - box that becomes the drawing [m]
 * @param unitsPerM - scale of the drawing [1/m]
 * @returns path data, from the frame's upper left corner [-]
 */
export function outlinePath(outline: Outline, frame: Frame, unitsPerM: number): string {
  const topM = frame.bottomM + frame.heightM;
  const points = outline.map(
    ({ xM, yM }) => `${((xM - frame.leftM) * unitsPerM).toFixed(2)},${((topM - yM) * unitsPerM).toFixed(2)}`,
  );
  return `M${points.join('L')}Z`;
}

/**
 * Length of a scale bar: the largest of 1, 2, 5 × 10ⁿ that fits into a third of the drawing.
 *
 * @param frame - box of the drawing [m]
 * @returns length of the bar [m]
 *
 * @example scaleBarLength({ leftM: 0, bottomM: 0, widthM: 0.078, heightM: 0.042 }) // 0.02
 */
export function scaleBarLength(frame: Frame): number {
  const thirdM = frame.widthM / 3;
  const power = 10 ** Math.floor(Math.log10(thirdM));
  return (thirdM >= 5 * power ? 5 : thirdM >= 2 * power ? 2 : 1) * power;
}
