import type { PumpMaterials } from '../records/material.ts';
import { expansionOf } from './expansion.ts';
import { type GapQuantity, shapeQuantity } from './gapMap.ts';

/** A share that may be anything from none to all: its middle, rectangular, u = ½/√3. Source: JCGM 100:2008, 4.3.7. */
const NONE_TO_ALL = { value: 0.5, standardUncertainty: 0.5 / Math.sqrt(3) };

/**
 * What nobody measures and every gap map needs: how far shafts lie off centre, where gears stand between their faces,
 * how parts expand. Each is a source of its own.
 *
 * @param materials - of the pump record [-]
 * @returns quantities `lean` and `faceOffset` [1], `bodyExpansion`, `gearExpansion`, `bushExpansion` [1/K]
 */
export function assumedQuantities(materials: PumpMaterials): readonly GapQuantity[] {
  const expansion = (id: string, name: string, of: PumpMaterials['body']): GapQuantity => {
    const { perK, halfWidthPerK } = expansionOf(of);
    const measured = { value: perK, standardUncertainty: halfWidthPerK / Math.sqrt(3) };
    return shapeQuantity(
      id,
      `expansion of the ${name}${of === null ? ', material not known' : ''}`,
      measured,
      'rectangular',
    );
  };
  return [
    shapeQuantity('lean', 'how far the shafts lie off centre in their bushes', NONE_TO_ALL, 'rectangular'),
    shapeQuantity('faceOffset', 'how far the gears stand to one face', NONE_TO_ALL, 'rectangular'),
    expansion('bodyExpansion', 'body', materials.body),
    expansion('gearExpansion', 'gears', materials.gears),
    expansion('bushExpansion', 'bushes', materials.bushes),
  ];
}
