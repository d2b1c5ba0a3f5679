import { yes } from '../outcome.ts';
import type { ExternalGearShape } from '../records/gapDimensions.ts';
import { type Bush, bushesByPart, faceGaps, leanOf, warmBushes } from './bushes.ts';
import { type Gap, type GapQuantity, type GapsAt, PARTS, shapeQuantity, TIPS } from './gapMap.ts';
import { tipGap } from './tipGap.ts';
import { binding, warmEndFloat, warmTipClearance } from './warmParts.ts';

/** Shapes of an external gear pump that carry an uncertainty. */
export function externalGearQuantities(shape: ExternalGearShape): readonly GapQuantity[] {
  return [
    shapeQuantity('tipLand', 'land of a tooth tip', shape.tipLandM),
    shapeQuantity('sealingArc', 'angle of the casing that seals', shape.sealingArcRad),
  ];
}

/**
 * Ways of the oil through an external gear pump: over the tips of both gears round the casing, over their faces, along
 * their shafts. The mesh seals by contact and is left out, as is the oil that the end float carries forward
 * (end float over twice the face width, some tenths of a per cent of V_g).
 *
 * @param shape - as measured apart [m, rad]
 * @param bushes - of both gears [m]
 * @returns gaps as a function of clearances and temperature [m³, m³/rev]
 */
export function externalGearGaps(shape: ExternalGearShape, bushes: readonly Bush[]): GapsAt {
  const byPart = bushesByPart(bushes);
  return (read, temperatureK) => {
    const warmingK = temperatureK - read('partsTemperature');
    const leanShare = read('lean');
    const endFloatM = warmEndFloat(read, shape.faceWidthM, warmingK);
    if (endFloatM < 0) return binding('end float', endFloatM);
    const gaps: Gap[] = [];
    for (const part of PARTS) {
      const warm = warmBushes(read, byPart[part], warmingK);
      if (!warm.ok) return warm;
      const tips = tipGap({
        label: part,
        toothCount: shape.toothCount[part],
        tipDiameterM: shape.tipDiameterM[part],
        faceWidthM: shape.faceWidthM,
        tipLandM: read('tipLand'),
        sealingArcRad: read('sealingArc'),
        clearanceM: warmTipClearance(read, TIPS[part], shape.tipDiameterM[part], warmingK),
        leanM: leanOf(warm.value, leanShare),
        turnsPerRev: part === 'driver' ? 1 : shape.toothCount.driver / shape.toothCount.driven,
      });
      if (!tips.ok) return tips;
      const faces = faceGaps({
        label: part,
        rootDiameterM: shape.rootDiameterM[part],
        shaftDiameterM: shape.rootDiameterM[part] / 2,
        endFloatM,
        faceOffset: read('faceOffset'),
        bushes: warm.value,
        eccentricity: leanShare,
      });
      gaps.push(tips.value, ...faces);
    }
    return yes(gaps);
  };
}
