import type { SpeedGroup } from '../../../../analysis/delivery/speedGroups.ts';
import { speedGroups } from '../../../../analysis/delivery/speedGroups.ts';
import type { SlipLaw } from '../../../../analysis/result.ts';
import type { RunView } from '../../../api.ts';
import { type SeriesStyle, seriesStyle } from '../../plots/palette.ts';
import { type DrawnHold, drawnHold } from '../delivery/drawnHold.ts';

/** A run among others: its letter, by which it is called, and how it is drawn. */
export type ComparedRun = {
  readonly letter: string;
  readonly style: SeriesStyle;
  readonly view: RunView;
  readonly law: SlipLaw | null;
  readonly groups: readonly SpeedGroup<DrawnHold>[];
};

/** Letters in the order of the address: the first is the one that the others are held against. */
export function comparedRuns(views: readonly RunView[]): readonly ComparedRun[] {
  return views.map((view, index) => {
    const { delivery } = view.result;
    return {
      letter: String.fromCharCode(65 + index),
      style: seriesStyle(index),
      view,
      law: delivery?.law.ok ? delivery.law.value : null,
      groups: speedGroups((delivery?.holds ?? []).map(drawnHold)),
    };
  });
}

/** 'A, as found' */
export function runWords({ letter, view }: ComparedRun): string {
  return `${letter}, ${view.run.label}`;
}

/** What two spans have in common; null: nothing. */
export function commonSpan(
  a: readonly [number, number],
  b: readonly [number, number],
): readonly [number, number] | null {
  const [low, high] = [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
  return high > low ? [low, high] : null;
}
