import { yes } from '../outcome.ts';
import type { ScrewShape } from '../records/gapDimensions.ts';
import { type Bush, bushConductance, bushesByPart, shaftGap, warmBushes } from './bushes.ts';
import { dragFlow, planeGapConductance, rollGapConductance } from './gapLaws.ts';
import { type Gap, type GapQuantity, type GapsAt, PARTS, type QuantityReader, shapeQuantity, TIPS } from './gapMap.ts';
import { binding, warmTipClearance } from './warmParts.ts';

const BORE_ARCS = { driver: 'boreArc.driver', driven: 'boreArc.driven' } as const;

/** Shapes of a screw pump that carry an uncertainty. */
export function screwQuantities(shape: ScrewShape): readonly GapQuantity[] {
  return [
    shapeQuantity('landWidth', 'land of a crest', shape.landWidthM),
    shapeQuantity('boreArc.driver', 'angle of the crest in its bore, driver', shape.boreArcRad.driver),
    shapeQuantity('boreArc.driven', 'angle of the crest in its bore, driven', shape.boreArcRad.driven),
    shapeQuantity('rootClearance', 'crest over root', shape.rootClearanceM, 'normal', true),
    shapeQuantity('flankClearance', 'between the flanks', shape.flankClearanceM, 'normal', true),
    shapeQuantity('flankLength', 'way between the flanks', shape.flankLengthM),
  ];
}

/**
 * Ways of the oil through a screw pump. Crests stand one behind the other, so many as starts × thread length/lead,
 * and each bears Δp over that number: over the crests along the shaft, between crest and root, between the flanks; bushes that
 * drain to suction bear all of it. The film outside the crests goes forward at half the speed of the thread: lead/2 a turn.
 *
 * @param shape - as measured apart [m, rad]
 * @param bushes - that drain to the suction side [m]
 * @returns gaps as a function of clearances and temperature [m³, m³/rev]
 *
 * Source: gap laws of gapLaws.ts; chambers in series as in any stepped seal. Derived here, no published source.
 */
export function screwGaps(shape: ScrewShape, bushes: readonly Bush[]): GapsAt {
  const chambers = Math.max(1, (shape.startCount * shape.threadLengthM) / shape.leadM);
  const byPart = bushesByPart(bushes);
  return (read, temperatureK) => {
    const warmingK = temperatureK - read('partsTemperature');
    const gaps: Gap[] = [];
    for (const part of PARTS) {
      const count = part === 'driver' ? 1 : shape.drivenCount;
      const diameterM = shape.outerDiameterM[part];
      const clearanceM = warmTipClearance(read, TIPS[part], diameterM, warmingK);
      if (clearanceM < 0) return binding(`tip clearance, ${part}`, clearanceM);
      const breadthM = (count * read(BORE_ARCS[part]) * diameterM) / 2;
      gaps.push({
        place: 'over the tips',
        label: part,
        conductanceM3: planeGapConductance(breadthM, clearanceM, chambers * read('landWidth')),
        dragM3PerRev: dragFlow(breadthM, clearanceM, shape.leadM),
        breadthM,
        dragPerBreadthM2PerRev: dragFlow(1, clearanceM, shape.leadM),
      });
      const warm = warmBushes(read, byPart[part], warmingK);
      if (!warm.ok) return warm;
      for (const entry of warm.value) gaps.push(shaftGap(entry.bush, bushConductance(entry, read('lean'))));
    }
    gaps.push(...meshGaps(shape, chambers, read));
    return yes(gaps);
  };
}

/** Between two screws in mesh: each crest in the other's root, and flank to flank over the depth of the thread. */
function meshGaps(shape: ScrewShape, chambers: number, read: QuantityReader): readonly Gap[] {
  const { outerDiameterM, rootDiameterM, drivenCount } = shape;
  const landsM = drivenCount * read('landWidth');
  const rootM = read('rootClearance');
  const rolls =
    rollGapConductance(landsM, rootM, relativeRadius(outerDiameterM.driver, rootDiameterM.driven)) +
    rollGapConductance(landsM, rootM, relativeRadius(outerDiameterM.driven, rootDiameterM.driver));
  const depthM = drivenCount * (outerDiameterM.driver - rootDiameterM.driver);
  const flanks = planeGapConductance(depthM, read('flankClearance'), chambers * read('flankLength'));
  return [meshGap('crest over root', rolls / chambers, 2 * landsM), meshGap('between the flanks', flanks, depthM)];
}

/** Of two round bodies side by side, 1/R = 2/D₁ + 2/D₂ [m]. */
function relativeRadius(outerM: number, rootM: number): number {
  return 1 / (2 / outerM + 2 / rootM);
}

function meshGap(label: string, conductanceM3: number, breadthM: number): Gap {
  return { place: 'through the mesh', label, conductanceM3, dragM3PerRev: 0, breadthM, dragPerBreadthM2PerRev: 0 };
}
