import type { OutlinePart } from '../../analysis/outline/outlinePart.ts';
import type { Outline } from '../../analysis/outline/polygon.ts';

/** The outline of a part. */
export function outlineNamed(parts: readonly OutlinePart[], name: string): Outline {
  const part = parts.find((each) => each.name === name);
  if (part === undefined) throw new Error(`no part is called ${name}`);
  return part.outline;
}
