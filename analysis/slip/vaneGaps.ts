import { yes } from '../outcome.ts';
import type { VaneShape } from '../records/gapDimensions.ts';
import { type Bush, bushesByPart, faceGaps, warmBushes } from './bushes.ts';
import { dragFlow, planeGapConductance, rollGapConductance } from './gapLaws.ts';
import { type Gap, type GapQuantity, type GapsAt, shapeQuantity, TIPS } from './gapMap.ts';
import { binding, warmEndFloat } from './warmParts.ts';

/** Shapes of a vane pump that carry an uncertainty. */
export function vaneQuantities(shape: VaneShape): readonly GapQuantity[] {
  return [
    shapeQuantity('tipLand', 'land of a vane tip', shape.tipLandM),
    shapeQuantity('sealingArc', 'angle of the ring that seals', shape.sealingArcRad),
    shapeQuantity('rotorClearance', 'rotor to ring where they come closest', shape.rotorClearanceM, 'normal', true),
  ];
}

/**
 * Ways of the oil through a vane pump: over the vane tips on the sealing arc (none while they are pressed to the ring), over
 * the faces of the rotor, along its shaft, and between rotor and ring where they come closest. V_g is counted to
 * the ring: the film at the tips lags at half the vane's speed, on the far arc forward and on the near arc back, so
 * the drag is −(π/2) h b (D_largest − D_smallest) a stroke; the near gap of the rotor drags oil back, in a single ring as a roll does, at (4/3) h. Vanes follow the ring, so its warmth opens no tip gap.
 *
 * @param shape - as measured apart [m, rad]
 * @param bushes - of the rotor's shaft [m]
 * @returns gaps as a function of clearances and temperature [m³, m³/rev]
 *
 * Source: gap laws of gapLaws.ts; derived here, no published source.
 */
export function vaneGaps(shape: VaneShape, bushes: readonly Bush[]): GapsAt {
  const { faceWidthM, ringRadiusM, strokesPerTurn, rotorDiameterM } = shape;
  const driverBushes = bushesByPart(bushes).driver;
  return (read, temperatureK) => {
    const warmingK = temperatureK - read('partsTemperature');
    const endFloatM = warmEndFloat(read, faceWidthM, warmingK);
    if (endFloatM < 0) return binding('end float', endFloatM);
    const warm = warmBushes(read, driverBushes, warmingK);
    if (!warm.ok) return warm;
    const tipM = read(TIPS.driver);
    const sealingCount = Math.max(1, (shape.vaneCount * read('sealingArc')) / (2 * Math.PI));
    const tips: Gap = {
      place: 'over the tips',
      label: 'vanes',
      conductanceM3: strokesPerTurn * planeGapConductance(faceWidthM, tipM, sealingCount * read('tipLand')),
      dragM3PerRev: -strokesPerTurn * Math.PI * faceWidthM * tipM * (ringRadiusM.largest - ringRadiusM.smallest),
      breadthM: strokesPerTurn * faceWidthM,
      dragPerBreadthM2PerRev: Math.PI * ringRadiusM.largest * tipM,
    };
    return yes([
      tips,
      ...faceGaps({
        label: 'rotor',
        rootDiameterM: rotorDiameterM,
        shaftDiameterM: rotorDiameterM / 2,
        endFloatM,
        faceOffset: read('faceOffset'),
        bushes: warm.value,
        eccentricity: read('lean'),
      }),
      nearGap(shape, read('rotorClearance'), read('sealingArc')),
    ]);
  };
}

/**
 * Rotor and ring where they come closest: in a single ring two circles, one inside the other, a roll gap; in a balanced
 * ring its near arcs, which run even with the rotor over the sealing angle.
 */
function nearGap(shape: VaneShape, clearanceM: number, sealingArcRad: number): Gap {
  const { rotorDiameterM, ringRadiusM, strokesPerTurn, faceWidthM } = shape;
  const isSingle = strokesPerTurn === 1;
  const breadthM = strokesPerTurn * faceWidthM;
  const ringM = (ringRadiusM.largest + ringRadiusM.smallest) / 2;
  const relativeRadiusM = 1 / (2 / rotorDiameterM - 1 / ringM);
  const dragHeightM = isSingle ? (4 / 3) * clearanceM : clearanceM;
  const dragPerBreadthM2PerRev = dragFlow(1, dragHeightM, Math.PI * rotorDiameterM);
  return {
    place: 'between rotor and ring',
    label: 'near gap',
    conductanceM3: isSingle
      ? rollGapConductance(breadthM, clearanceM, relativeRadiusM)
      : planeGapConductance(breadthM, clearanceM, (sealingArcRad * rotorDiameterM) / 2),
    dragM3PerRev: -breadthM * dragPerBreadthM2PerRev,
    breadthM,
    dragPerBreadthM2PerRev,
  };
}
