import type { DeliveryPoint } from './deliveryGuide.ts';

/**
 * A plan with one set point more: before the first speed is left, its second point is reached once more, from above. Whether
 * it matters from where a pressure is reached can be told from that pair.
 *
 * @param plan - set points in the order in which they are taken, pressures up at the first speed [rev/s, Pa gauge]
 * @returns the same, with the return; unchanged where the first speed has fewer than three points [rev/s, Pa gauge]
 */
export function withReturnPoint(plan: readonly DeliveryPoint[]): readonly DeliveryPoint[] {
  const [first, second] = plan;
  const leftAt = plan.findIndex(({ speedRevPerS }) => speedRevPerS !== first?.speedRevPerS);
  const count = leftAt < 0 ? plan.length : leftAt;
  if (second === undefined || count < 3) return plan;
  return [...plan.slice(0, count), second, ...plan.slice(count)];
}
