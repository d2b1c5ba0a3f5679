import type { HoldResult } from '../../../analysis/result.ts';

/** Holds that were taken at about the same speed, drawn as one series. */
export type SpeedGroup = {
  readonly speedRevPerS: number;
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
  readonly holds: readonly HoldResult[];
};

/** Speeds closer than this share belong together [1]. */
const SAME_SPEED_SHARE = 0.04;

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Groups by speed, slowest first; speed and oil of a group are the means of its holds. */
export function speedGroups(holds: readonly HoldResult[]): readonly SpeedGroup[] {
  const bySpeed = [...holds].sort((a, b) => a.speedRevPerS.value - b.speedRevPerS.value);
  const groups: HoldResult[][] = [];
  for (const hold of bySpeed) {
    const open = groups.at(-1);
    const first = open?.[0];
    if (open !== undefined && first !== undefined) {
      if (hold.speedRevPerS.value <= first.speedRevPerS.value * (1 + SAME_SPEED_SHARE)) {
        open.push(hold);
        continue;
      }
    }
    groups.push([hold]);
  }
  return groups.map((group) => ({
    speedRevPerS: mean(group.map(({ speedRevPerS }) => speedRevPerS.value)),
    dynamicViscosityPaS: mean(group.map(({ dynamicViscosityPaS }) => dynamicViscosityPaS)),
    densityKgPerM3: mean(group.map(({ densityKgPerM3 }) => densityKgPerM3)),
    holds: group.toSorted((a, b) => a.differentialPressurePa.value - b.differentialPressurePa.value),
  }));
}
