import { no, type Outcome, yes } from '../outcome.ts';
import { inMillimetres, type StripRefusal } from '../strip/stripRefusal.ts';
import { crescentGap } from './crescentGap.ts';
import { dragFlow, planeGapConductance } from './gapLaws.ts';
import type { Gap } from './gapMap.ts';

/** Teeth of one gear that seal against a casing. */
export type SealingTips = {
  readonly label: string;
  readonly toothCount: number;
  readonly tipDiameterM: number;
  readonly faceWidthM: number;
  readonly tipLandM: number;
  readonly sealingArcRad: number;
  /** Radial, warm [m]. */
  readonly clearanceM: number;
  /** Towards the suction side [m]. */
  readonly leanM: number;
  /** Turns of this gear for one of the shaft [1]. */
  readonly turnsPerRev: number;
};

/**
 * Slip over the tips of a gear and the oil that they carry forward. So many tips seal one after the other as the arc holds
 * on the average, z × arc/2π, one at the least; the mean passes whole teeth as the gear turns.
 *
 * @param tips - gear, casing and warm clearance [m, rad]
 * @returns the gap [m³, m³/rev]; refused where the gear touches the casing [-]
 *
 * Source: plane gap laws of gapLaws.ts, crescentGap for the lean. Drag: V_g is counted to the tips, and the film
 * outside them goes forward at half their speed, b h U/2.
 */
export function tipGap(tips: SealingTips): Outcome<Gap, StripRefusal> {
  const { toothCount, sealingArcRad, clearanceM, leanM, faceWidthM, tipLandM } = tips;
  const crescent = clearanceM > 0 ? crescentGap(clearanceM, leanM, sealingArcRad) : null;
  if (crescent === null) {
    return no({
      code: 'GEAR_TOUCHES_CASING',
      quantity: `lean of the gear, ${tips.label} [m]`,
      value: leanM,
      limit: clearanceM,
      text: `the ${tips.label} leans by ${inMillimetres(leanM)} in its bushes and clears the casing by ${inMillimetres(clearanceM)}: it runs on the casing`,
    });
  }
  const sealingCount = Math.max(1, (toothCount * sealingArcRad) / (2 * Math.PI));
  const wallPerRevM = Math.PI * tips.tipDiameterM * tips.turnsPerRev;
  return yes({
    place: 'over the tips',
    label: tips.label,
    conductanceM3: planeGapConductance(faceWidthM, crescent.pressureHeightM, sealingCount * tipLandM),
    dragM3PerRev: dragFlow(faceWidthM, crescent.dragHeightM, wallPerRevM),
    breadthM: faceWidthM,
    dragPerBreadthM2PerRev: dragFlow(1, crescent.dragHeightM, wallPerRevM),
  });
}
