import type { CertificateHold } from '../../../analysis/certificate/certificateData.ts';

/** Holds at about one speed. */
export type SpeedGroup = { readonly meanSpeedRevPerS: number; readonly holds: readonly CertificateHold[] };

/** Set points are met by hand: speeds closer than this are one [1]. */
const SAME_SPEED = 0.03;

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function groupOf(holds: readonly CertificateHold[]): SpeedGroup {
  const byPressure = [...holds].sort((a, b) => a.differentialPressurePa.value - b.differentialPressurePa.value);
  return { meanSpeedRevPerS: meanOf(holds.map(({ speedRevPerS }) => speedRevPerS.value)), holds: byPressure };
}

/** Holds by speed, slowest first; in each, by pressure difference. */
export function speedGroups(holds: readonly CertificateHold[]): readonly SpeedGroup[] {
  const bySpeed = [...holds].sort((a, b) => a.speedRevPerS.value - b.speedRevPerS.value);
  const groups: CertificateHold[][] = [];
  let previous = 0;
  for (const hold of bySpeed) {
    const speed = hold.speedRevPerS.value;
    const last = groups.at(-1);
    if (last !== undefined && speed - previous <= SAME_SPEED * speed) last.push(hold);
    else groups.push([hold]);
    previous = speed;
  }
  return groups.map(groupOf);
}

/** Values at which the law of a group is drawn, from its lowest to its highest pressure difference, and no further [Pa]. */
export function pressuresToDrawPa({ holds }: SpeedGroup): readonly number[] {
  const low = holds[0]?.differentialPressurePa.value ?? 0;
  const high = holds.at(-1)?.differentialPressurePa.value ?? low;
  const steps = 24;
  return Array.from({ length: steps + 1 }, (_, step) => low + ((high - low) * step) / steps);
}

/** Mean oil of a group, at which its law is drawn [Pa s, kg/m³]. */
export function meanOil({ holds }: SpeedGroup): {
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
} {
  return {
    dynamicViscosityPaS: meanOf(holds.map(({ dynamicViscosityPaS }) => dynamicViscosityPaS)),
    densityKgPerM3: meanOf(holds.map(({ densityKgPerM3 }) => densityKgPerM3)),
  };
}
