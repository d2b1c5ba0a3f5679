import { no, type Outcome } from '../outcome.ts';
import type { StripSheet } from '../records/stripSheet.ts';
import { type Clearance, clearanceFrom } from './clearance.ts';
import { inMillimetres, type StripRefusal } from './stripRefusal.ts';

/**
 * End float of the gears: felt directly, or recess depth + gasket − its crush − gear width.
 *
 * @param endFloat - how it was measured [m]
 * @returns end float, all of it, both faces together, with `strip.endFloat.*` sources [m]; or why these numbers cannot be [-]
 *
 * Source: geometry of a body closed by a flat cover on a gasket.
 */
export function endFloatOf(endFloat: NonNullable<StripSheet['endFloat']>): Outcome<Clearance, StripRefusal> {
  if (endFloat.method === 'direct') {
    return clearanceFrom('end float', [{ id: 'endFloat', label: 'end float', measured: endFloat.endFloatM, times: 1 }]);
  }
  const { recessDepthM, gearWidthM, gasketThicknessM, gasketCrushM } = endFloat;
  if (gasketThicknessM.value > recessDepthM.value) {
    return no({
      code: 'GASKET_THICKER_THAN_RECESS',
      quantity: 'gasket thickness [m]',
      value: gasketThicknessM.value,
      limit: recessDepthM.value,
      text: `a gasket of ${inMillimetres(gasketThicknessM.value)} is thicker than the recess of ${inMillimetres(recessDepthM.value)} is deep: one of the two is wrong`,
    });
  }
  if (gasketCrushM.value > gasketThicknessM.value) {
    return no({
      code: 'CRUSH_BEYOND_GASKET',
      quantity: 'gasket crush [m]',
      value: gasketCrushM.value,
      limit: gasketThicknessM.value,
      text: `a gasket of ${inMillimetres(gasketThicknessM.value)} cannot be crushed by ${inMillimetres(gasketCrushM.value)}`,
    });
  }
  return clearanceFrom('end float', [
    { id: 'endFloat.recessDepth', label: 'depth of the gear chamber', measured: recessDepthM, times: 1 },
    { id: 'endFloat.gasketThickness', label: 'gasket thickness', measured: gasketThicknessM, times: 1 },
    { id: 'endFloat.gasketCrush', label: 'crush of the gasket', measured: gasketCrushM, times: -1 },
    { id: 'endFloat.gearWidth', label: 'width of the gears', measured: gearWidthM, times: -1 },
  ]);
}
