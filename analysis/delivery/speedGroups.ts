import { mean } from 'simple-statistics';
import type { LawPoint } from './slipLaw.ts';

/** What a hold must say of itself to be drawn with others of its speed. */
export type GroupedHold = Pick<LawPoint, 'dynamicViscosityPaS' | 'densityKgPerM3'> & {
  readonly speedRevPerS: { readonly value: number };
  readonly differentialPressurePa: { readonly value: number };
};

/** Holds that were taken at about the same speed, drawn as one series; speed and oil are their means. */
export type SpeedGroup<Hold extends GroupedHold> = Omit<LawPoint, 'differentialPressurePa'> & {
  /** By pressure difference, lowest first. */
  readonly holds: readonly Hold[];
};

/** Set points are met by hand: speeds within this share of the group's slowest belong together [1]. */
const SAME_SPEED_SHARE = 0.04;

/**
 * Groups holds by speed, for page and certificate alike.
 *
 * @param holds - of one run, in any order [n holds]
 * @returns groups, slowest first; each with mean speed, viscosity and density [rev/s, Pa s, kg/m³]
 */
export function speedGroups<Hold extends GroupedHold>(holds: readonly Hold[]): readonly SpeedGroup<Hold>[] {
  const groups: Hold[][] = [];
  for (const hold of [...holds].sort((a, b) => a.speedRevPerS.value - b.speedRevPerS.value)) {
    const open = groups.at(-1);
    const slowest = open?.[0]?.speedRevPerS.value ?? Number.NEGATIVE_INFINITY;
    if (open !== undefined && hold.speedRevPerS.value <= slowest * (1 + SAME_SPEED_SHARE)) open.push(hold);
    else groups.push([hold]);
  }
  return groups.map((group) => ({
    speedRevPerS: mean(group.map(({ speedRevPerS }) => speedRevPerS.value)),
    dynamicViscosityPaS: mean(group.map(({ dynamicViscosityPaS }) => dynamicViscosityPaS)),
    densityKgPerM3: mean(group.map(({ densityKgPerM3 }) => densityKgPerM3)),
    holds: [...group].sort((a, b) => a.differentialPressurePa.value - b.differentialPressurePa.value),
  }));
}
