import type { BalancedVaneRingGeometry } from '../../analysis/records/geometry/balancedVaneRing.ts';
import { measured } from './sweptGeometry.ts';

/** R = 32, r = 28.5, b = 24 mm, twelve upright vanes of 2 mm. */
export const VANE_RING: BalancedVaneRingGeometry = {
  kind: 'balancedVaneRing',
  vaneCount: 12,
  majorDiameterM: measured(0.064),
  minorDiameterM: measured(0.057),
  rotorDiameterM: measured(0.0565),
  ringWidthM: measured(0.024),
  vaneThicknessM: measured(0.002),
  vaneLeanRad: 0,
  underVanesDeliver: false,
};
