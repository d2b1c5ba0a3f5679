import { yes } from '../outcome.ts';
import type { InternalGearShape } from '../records/gapDimensions.ts';
import { type Bush, bushesByPart, faceGaps, warmBushes } from './bushes.ts';
import { warmClearance } from './expansion.ts';
import { discGapConductance, planeGapConductance } from './gapLaws.ts';
import { type Gap, type GapQuantity, type GapsAt, PARTS, type QuantityReader, shapeQuantity, TIPS } from './gapMap.ts';
import { tipGap } from './tipGap.ts';
import { binding, warmEndFloat, warmTipClearance } from './warmParts.ts';

/** Shapes of an internal gear pump that carry an uncertainty. */
export function internalGearQuantities(shape: InternalGearShape): readonly GapQuantity[] {
  return [
    shapeQuantity('tipLand', 'land of a tooth tip', shape.tipLandM),
    shapeQuantity('crescentArc.driver', 'angle of the crescent, pinion side', shape.crescentArcRad.driver),
    shapeQuantity('crescentArc.driven', 'angle of the crescent, ring side', shape.crescentArcRad.driven),
    shapeQuantity('ringSealLength', 'land round the outside of the ring', shape.ringSealLengthM),
  ];
}

/**
 * Ways of the oil through an internal gear pump: pinion and ring tips along the crescent, faces of both, along the
 * pinion's shaft, and round the outside of the ring by two ways, of which one drags forward and one back. The ring's
 * clearance in the body stands in the sheet as a bush of the driven part. Gears are taken as central: the crescent
 * holds pinion and ring apart.
 *
 * @param shape - as measured apart [m, rad]
 * @param bushes - of the pinion, and the ring's one in the body [m]
 * @returns gaps as a function of clearances and temperature [m³, m³/rev]
 */
export function internalGearGaps(shape: InternalGearShape, bushes: readonly Bush[]): GapsAt {
  const byPart = bushesByPart(bushes);
  return (read, temperatureK) => {
    const warmingK = temperatureK - read('partsTemperature');
    const endFloatM = warmEndFloat(read, shape.faceWidthM, warmingK);
    if (endFloatM < 0) return binding('end float', endFloatM);
    const gaps: Gap[] = [];
    for (const part of PARTS) {
      const tips = tipGap({
        label: part === 'driver' ? 'pinion' : 'ring',
        toothCount: shape.toothCount[part],
        tipDiameterM: shape.tipDiameterM[part],
        faceWidthM: shape.faceWidthM,
        tipLandM: read('tipLand'),
        sealingArcRad: read(`crescentArc.${part}`),
        clearanceM: crescentClearance(read, part, shape, warmingK),
        leanM: 0,
        turnsPerRev: part === 'driver' ? 1 : shape.toothCount.driver / shape.toothCount.driven,
      });
      if (!tips.ok) return tips;
      gaps.push(tips.value);
    }
    const pinion = warmBushes(read, byPart.driver, warmingK);
    if (!pinion.ok) return pinion;
    gaps.push(
      ...faceGaps({
        label: 'pinion',
        rootDiameterM: shape.rootDiameterM.driver,
        shaftDiameterM: shape.rootDiameterM.driver / 2,
        endFloatM,
        faceOffset: read('faceOffset'),
        bushes: pinion.value,
        eccentricity: read('lean'),
      }),
      ringFaces(shape, endFloatM, read('faceOffset')),
    );
    for (const bush of byPart.driven) {
      const inBody = {
        clearanceM: read(bush.id),
        insideM: bush.shaftDiameterM,
        outsideExpansionPerK: read('bodyExpansion'),
        insideExpansionPerK: read('gearExpansion'),
      };
      const diametralM = warmClearance(inBody, warmingK);
      if (diametralM < 0) return binding('clearance of the ring in the body', diametralM);
      gaps.push({
        place: 'round the ring',
        label: bush.where,
        // Two ways; off centre one is wider by what the other is narrower, (1 + e)³ + (1 − e)³ = 2 + 6 e².
        conductanceM3:
          planeGapConductance(shape.faceWidthM, diametralM / 2, read('ringSealLength')) * (2 + 6 * read('lean') ** 2),
        dragM3PerRev: 0,
        breadthM: 2 * shape.faceWidthM,
        dragPerBreadthM2PerRev: 0,
      });
    }
    return yes(gaps);
  };
}

/** Pinion tips inside the crescent, which is of the body; ring tips outside it, where the body is the part inside. */
function crescentClearance(
  read: QuantityReader,
  part: 'driver' | 'driven',
  shape: InternalGearShape,
  warmingK: number,
): number {
  if (part === 'driver') return warmTipClearance(read, TIPS.driver, shape.tipDiameterM.driver, warmingK);
  const clearanceM = 2 * read(TIPS.driven);
  const ring = {
    clearanceM,
    insideM: shape.tipDiameterM.driven - clearanceM,
    outsideExpansionPerK: read('gearExpansion'),
    insideExpansionPerK: read('bodyExpansion'),
  };
  return warmClearance(ring, warmingK) / 2;
}

/** The ring's two faces, between its teeth and its outside: blind, so in over one half and out over the other. */
function ringFaces(shape: InternalGearShape, endFloatM: number, faceOffset: number): Gap {
  const [inner, outer] = [shape.rootDiameterM.driven / 2, shape.ringOuterDiameterM / 2];
  const both = [1 + faceOffset, 1 - faceOffset].map((side) => discGapConductance((endFloatM / 2) * side, inner, outer));
  return {
    place: 'over the faces',
    label: 'ring',
    conductanceM3: both.reduce((sum, conductanceM3) => sum + conductanceM3 / 4, 0),
    dragM3PerRev: 0,
    breadthM: Math.PI * inner * 2,
    dragPerBreadthM2PerRev: 0,
  };
}
