import { no, type Outcome } from '../outcome.ts';
import type { PlainThreadGeometry } from '../records/geometry/plainThread.ts';
import { differenceFrom, unitOf } from '../units.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume } from './geometryResult.ts';

/** Terms of the series below: what is left out is under 1e-6 of it for a groove a hundredth as deep as wide, less for deeper ones. */
const SERIES_TERMS = 2000;

/**
 * What the side walls of a groove leave of the drag flow, F_d = (16 W/(π³ H)) Σ tanh(i π H/(2 W))/i³ over odd i.
 *
 * @param depthOverWidth - H/W, above zero [1]
 * @returns 1 for a shallow groove, less for a deep one [1]
 *
 * Source: theory of screw extruders (Rowell and Finlayson, 1928; Tadmor and Klein, 1970), from memory.
 */
export function grooveDragFactor(depthOverWidth: number): number {
  let sum = 0;
  for (let term = 0; term < SERIES_TERMS; term += 1) {
    const odd = 2 * term + 1;
    sum += Math.tanh((odd * Math.PI * depthOverWidth) / 2) / odd ** 3;
  }
  return (16 / (Math.PI ** 3 * depthOverWidth)) * sum;
}

/**
 * Oil that a plain thread drags forward in a turn against no pressure, V₀ = ½ N W H π D cos φ F_d: N grooves of depth H
 * and width W square to the groove, whose wall passes at π D cos φ a turn, tan φ = lead/(π D). Any laminar Newtonian
 * oil, any speed; no leakage over the lands, groove shallow against the diameter.
 *
 * @param thread - grooves and bore [m]
 * @returns drag flow per turn at zero pressure difference [m³/rev]
 *
 * Source: plane Couette flow, ½ U a wall speed; theory of screw extruders as grooveDragFactor.
 */
export function dragFlowPerTurn(thread: PlainThreadGeometry): number {
  const aroundM = Math.PI * thread.boreDiameterM.value;
  const helixRad = Math.atan(thread.leadM.value / aroundM);
  const depthM = thread.grooveDepthM.value;
  const widthM = thread.grooveWidthM.value * Math.cos(helixRad);
  const pathM = aroundM * Math.cos(helixRad);
  return (thread.startCount * widthM * depthM * pathM * grooveDragFactor(depthM / widthM)) / 2;
}

/**
 * Refuses a swept volume to a plain thread in a bore. Every groove is open from end to end: it shuts nothing off, so a
 * turn passes no fixed volume against a pressure, and no gas. Slip, volumetric efficiency and a dry start are reckoned
 * from a volume that is; the drag flow would stand in for it only at zero pressure. It is said beside the refusal.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns why there is no swept volume, with the drag flow per turn [-]
 */
export function plainThreadSweptVolume(geometry: PlainThreadGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { startCount, grooveWidthM, leadM } = geometry;
  const groovesM = startCount * grooveWidthM.value;
  if (groovesM >= leadM.value) {
    return no({
      code: 'GROOVES_OVERLAP',
      quantity: 'grooves side by side [m]',
      value: groovesM,
      limit: leadM.value,
      text: `${startCount} grooves of ${lengthInMm(grooveWidthM.value)} leave no land in a lead of ${lengthInMm(leadM.value)}`,
    });
  }
  const dragM3PerRev = dragFlowPerTurn(geometry);
  return no({
    code: 'VISCOUS_DRAG_PUMP',
    quantity: 'drag flow per turn at zero pressure [m³/rev]',
    value: dragM3PerRev,
    limit: 0,
    text: `a plain thread in a bore displaces nothing positively: it drags oil, ${differenceFrom(dragM3PerRev, unitOf('cm3/rev')).toPrecision(3)} cm³ a turn against no pressure, less with every bar, and no air at all; it has no swept volume to hold a flow against`,
  });
}
