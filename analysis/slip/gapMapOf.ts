import { no, type Outcome, yes } from '../outcome.ts';
import type { GapDimensions } from '../records/gapDimensions.ts';
import type { PumpMaterials } from '../records/material.ts';
import type { StripSheet } from '../records/stripSheet.ts';
import { endFloatOf } from '../strip/endFloat.ts';
import { bushClearanceOf, tipClearanceOf } from '../strip/radialClearances.ts';
import { inMillimetres, notMeasured, type StripRefusal } from '../strip/stripRefusal.ts';
import { assumedQuantities } from './assumptions.ts';
import type { Bush } from './bushes.ts';
import { externalGearGaps, externalGearQuantities } from './externalGearGaps.ts';
import { discGapConductance } from './gapLaws.ts';
import {
  clearanceQuantity,
  type Gap,
  type GapMap,
  type GapQuantity,
  type GapsAt,
  gapMap,
  shapeQuantity,
} from './gapMap.ts';
import { internalGearGaps, internalGearQuantities } from './internalGearGaps.ts';
import { screwGaps, screwQuantities } from './screwGaps.ts';
import { vaneGaps, vaneQuantities } from './vaneGaps.ts';

type TypeOfPump = { readonly shapes: readonly GapQuantity[]; readonly gapsAt: GapsAt };

function typeOfPump(shape: GapDimensions, bushes: readonly Bush[]): TypeOfPump {
  switch (shape.kind) {
    case 'externalGear':
      return { shapes: externalGearQuantities(shape), gapsAt: externalGearGaps(shape, bushes) };
    case 'internalGear':
      return { shapes: internalGearQuantities(shape), gapsAt: internalGearGaps(shape, bushes) };
    case 'screw':
      return { shapes: screwQuantities(shape), gapsAt: screwGaps(shape, bushes) };
    case 'vane':
      return { shapes: vaneQuantities(shape), gapsAt: vaneGaps(shape, bushes) };
  }
}

/** Clearances that the sheet's sums give; the sheet must hold those that its type of pump needs. */
function clearancesOf(sheet: StripSheet, shape: GapDimensions): Outcome<readonly GapQuantity[], StripRefusal> {
  const quantities: GapQuantity[] = [];
  if (shape.kind !== 'screw') {
    if (sheet.endFloat === null) return no(notMeasured('end float'));
    const endFloat = endFloatOf(sheet.endFloat);
    if (!endFloat.ok) return endFloat;
    quantities.push(clearanceQuantity('endFloat', 'end float', endFloat.value));
  }
  for (const part of shape.kind === 'vane' ? (['driver'] as const) : (['driver', 'driven'] as const)) {
    const measured = sheet.tipClearances.find((tip) => tip.part === part);
    if (measured === undefined) return no(notMeasured(`tip clearance, ${part}`));
    const tip = tipClearanceOf(measured);
    if (!tip.ok) return tip;
    quantities.push(clearanceQuantity(`tip.${part}`, `tip clearance, ${part}`, tip.value));
  }
  for (const [index, bush] of sheet.shaftsInBushes.entries()) {
    const clearance = bushClearanceOf(bush, index);
    if (!clearance.ok) return clearance;
    quantities.push(clearanceQuantity(`bush.${index}`, `clearance of the shaft, ${bush.where}`, clearance.value));
  }
  return yes(quantities);
}

/** A shaft must be thinner than the root circle of its gear, or there is no face to seal. */
function shaftsFit(shape: GapDimensions, bushes: readonly Bush[]): StripRefusal | null {
  if (shape.kind === 'screw') return null;
  for (const { part, where, shaftDiameterM } of bushes) {
    if (part === 'driven' && shape.kind !== 'externalGear') continue;
    const rootM = shape.kind === 'vane' ? shape.rotorDiameterM : shape.rootDiameterM[part];
    if (shaftDiameterM < rootM) continue;
    return {
      code: 'SHAFT_WIDER_THAN_ROOT',
      quantity: `shaft diameter, ${where} [m]`,
      value: shaftDiameterM,
      limit: rootM,
      text: `the shaft of ${inMillimetres(shaftDiameterM)} (${where}) is not thinner than the root circle of ${inMillimetres(rootM)}: no face is left to seal`,
    };
  }
  return null;
}

function seatGap(seat: NonNullable<StripSheet['reliefSeat']>, gapM: number): Gap {
  const radiusM = seat.boreDiameterM / 2;
  return {
    place: 'over the relief valve seat',
    label: 'shut valve',
    conductanceM3: discGapConductance(gapM, radiusM, radiusM + seat.widthM),
    dragM3PerRev: 0,
    breadthM: 2 * Math.PI * radiusM,
    dragPerBreadthM2PerRev: 0,
  };
}

/**
 * The gap map of a pump from its strip sheet: external gear, internal gear, screw or vane, with the seat of a built-in
 * relief valve.
 *
 * @param sheet - strip sheet with the dimensions of its gaps [-]
 * @param materials - of the pump record [-]
 * @returns map of the ways that oil slips back [-]; or what is missing or impossible on the sheet [-]
 */
export function gapMapOf(sheet: StripSheet, materials: PumpMaterials): Outcome<GapMap, StripRefusal> {
  const { gapDimensions: shape, reliefSeat, partsTemperatureK } = sheet;
  if (shape === null) return no(notMeasured('dimensions of the gaps'));
  const clearances = clearancesOf(sheet, shape);
  if (!clearances.ok) return clearances;
  const bushes = sheet.shaftsInBushes.map(({ part, where, lengthM, isDrained, shaftDiameterM }, index) => ({
    ...{ id: `bush.${index}`, part, where, lengthM, isDrained },
    shaftDiameterM: shaftDiameterM.value,
  }));
  const misfit = shaftsFit(shape, bushes);
  if (misfit !== null) return no(misfit);
  const { shapes, gapsAt } = typeOfPump(shape, bushes);
  const seat =
    reliefSeat === null
      ? []
      : [shapeQuantity('reliefGap', 'gap left at the relief valve seat', reliefSeat.gapM, 'normal', true)];
  return yes(
    gapMap(
      [
        ...clearances.value,
        ...seat,
        ...shapes,
        shapeQuantity('partsTemperature', 'temperature of the parts when measured', partsTemperatureK),
        ...assumedQuantities(materials),
      ],
      (read, temperatureK) => {
        const gaps = gapsAt(read, temperatureK);
        if (!gaps.ok || reliefSeat === null) return gaps;
        return yes([...gaps.value, seatGap(reliefSeat, read('reliefGap'))]);
      },
    ),
  );
}
