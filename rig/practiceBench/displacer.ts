import { createGearMesh, PRACTICE_GEARS } from './gearMesh.ts';
import type { PumpKind } from './pumpKind.ts';

/** How a pump displaces while its shaft turns; angles are counted in pulses. */
export type Displacer = {
  readonly pulsesPerRev: number;
  readonly sweptVolumeM3PerRev: number;
  readonly displacedM3: (fromPulse: number, toPulse: number) => number;
};

/** Twin screw: 42 cm³ a turn as its parts list says, two starts, no ripple. */
const SCREW_M3_PER_REV = 42e-6;
const SCREW_PULSES = 2;

/**
 * Internal gears of 3 mm module, 13 teeth in a ring of 19, tip diameters 45 and 54 mm, 9 mm apart, 20 mm wide, 20°. By
 * hand [mm]: π 20 [(22.5² − 19.5²) + (13/19)(28.5² − 27²) − (6/19) 8.856394²/12] = 11 366.058 mm³ a turn of the pinion.
 */
const INTERNAL_M3_PER_REV = 11_366.058e-9;
const INTERNAL_PULSES = 13;
/** (max − min)/mean: (6/19) 8.856394²/4 over the bracket, 180.8924 mm². */
const INTERNAL_RIPPLE = 0.0342;

/** A pulse of cosine shape: mean 1, (max − min) as given; its integral is taken so that no ripple is lost between. */
function rippling(sweptVolumeM3PerRev: number, pulsesPerRev: number, ripple: number): Displacer {
  const integral = (pulse: number): number => pulse + (ripple / 2 / (2 * Math.PI)) * Math.sin(2 * Math.PI * pulse);
  return {
    pulsesPerRev,
    sweptVolumeM3PerRev,
    displacedM3: (fromPulse, toPulse) =>
      (sweptVolumeM3PerRev / pulsesPerRev) * (integral(toPulse) - integral(fromPulse)),
  };
}

/** The displacement of one of the practice pumps. */
export function createDisplacer(kind: PumpKind): Displacer {
  switch (kind) {
    case 'externalGear': {
      const mesh = createGearMesh(PRACTICE_GEARS);
      return { pulsesPerRev: PRACTICE_GEARS.toothCount, ...mesh };
    }
    case 'screw':
      return rippling(SCREW_M3_PER_REV, SCREW_PULSES, 0);
    case 'internalGear':
      return rippling(INTERNAL_M3_PER_REV, INTERNAL_PULSES, INTERNAL_RIPPLE);
  }
}
