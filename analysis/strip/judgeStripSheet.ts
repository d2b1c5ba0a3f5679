import { no, type Outcome, yes } from '../outcome.ts';
import type { StripLimit, StripMeasurement, StripSheet } from '../records/stripSheet.ts';
import { type Clearance, clearanceFrom } from './clearance.ts';
import { endFloatOf } from './endFloat.ts';
import { judgeMeasurement, type StripJudgement } from './judgeMeasurement.ts';
import { bushClearanceOf, tipClearanceOf } from './radialClearances.ts';
import type { StripRefusal } from './stripRefusal.ts';

type JudgedMeasurement = {
  readonly label: string;
  readonly quantity: 'length' | 'torque';
  /** Where it cannot be, the reason. */
  readonly outcome: Outcome<StripJudgement, StripRefusal>;
};

/** A strip sheet read as a foreman would: every measurement with its word, and what must be seen to before it runs. */
export type JudgedStripSheet = {
  readonly measurements: readonly JudgedMeasurement[];
  /** What is open, in sentences: fasteners that nothing holds, nicks not dressed, limits not kept. */
  readonly open: readonly string[];
};

type Entry = { readonly label: string; readonly quantity: JudgedMeasurement['quantity'] };

function judged(
  entry: Entry,
  clearance: Outcome<Clearance, StripRefusal>,
  limit: StripLimit | null,
): JudgedMeasurement {
  return {
    ...entry,
    outcome: clearance.ok ? yes(judgeMeasurement(clearance.value, limit)) : no(clearance.reason),
  };
}

function read(label: string, measured: StripMeasurement, quantity: Entry['quantity'] = 'length'): JudgedMeasurement {
  return judged(
    { label, quantity },
    clearanceFrom(label, [{ id: 'reading', label, measured, times: 1 }]),
    measured.limit,
  );
}

/** Readings that a sum is made of are listed where they have a limit of their own: a worn shaft in a worn bush. */
function ownLimits(readings: readonly (readonly [string, StripMeasurement])[]): JudgedMeasurement[] {
  return readings.filter(([, { limit }]) => limit !== null).map(([label, measured]) => read(label, measured));
}

function lengthsOf(sheet: StripSheet): JudgedMeasurement[] {
  const { endFloat, tipClearances, shaftsInBushes, backlashM, faceFlatness, reliefSeat } = sheet;
  const length = (label: string): Entry => ({ label, quantity: 'length' });
  const list: JudgedMeasurement[] = [];
  if (endFloat !== null) {
    list.push(judged(length('end float'), endFloatOf(endFloat), endFloat.limit));
    if (endFloat.method === 'gasketAndDepths') {
      list.push(
        ...ownLimits([
          ['depth of the gear chamber', endFloat.recessDepthM],
          ['width of the gears', endFloat.gearWidthM],
          ['gasket thickness', endFloat.gasketThicknessM],
          ['crush of the gasket', endFloat.gasketCrushM],
        ]),
      );
    } else list.push(...ownLimits([['end float, as read', endFloat.endFloatM]]));
  }
  for (const tip of tipClearances) {
    list.push(judged(length(`tip clearance, ${tip.part}`), tipClearanceOf(tip), tip.limit));
    list.push(
      ...ownLimits(
        tip.method === 'diameters'
          ? [
              [`bore, ${tip.part}`, tip.boreDiameterM],
              [`tip diameter, ${tip.part}`, tip.tipDiameterM],
            ]
          : [[`tip clearance, ${tip.part}, as read`, tip.clearanceM]],
      ),
    );
  }
  for (const [index, bush] of shaftsInBushes.entries()) {
    list.push(judged(length(`clearance of the shaft, ${bush.where}`), bushClearanceOf(bush, index), bush.limit));
    list.push(
      ...ownLimits([
        [`bush bore, ${bush.where}`, bush.boreDiameterM],
        [`shaft diameter, ${bush.where}`, bush.shaftDiameterM],
      ]),
    );
  }
  if (backlashM !== null) list.push(read('backlash', backlashM));
  for (const { where, deviationM } of faceFlatness) list.push(read(`flatness, ${where}`, deviationM));
  if (reliefSeat !== null) list.push(read('gap left at the relief valve seat', reliefSeat.gapM));
  return list;
}

function torquesOf({ turning }: StripSheet): JudgedMeasurement[] {
  if (turning === null) return [];
  return [
    read('turning torque, free', turning.freeTorqueNm, 'torque'),
    ...turning.tightSpots.map(({ torqueNm, shaftAngleRad }) =>
      read(`turning torque, tight spot at ${((shaftAngleRad * 180) / Math.PI).toFixed(0)}°`, torqueNm, 'torque'),
    ),
  ];
}

/**
 * Every measurement of a strip sheet against its limit, and what is still open.
 *
 * @param sheet - the strip sheet [-]
 * @returns measurements in the sheet's order with their judgement [m, N m], and sentences of what is open [-]
 */
export function judgeStripSheet(sheet: StripSheet): JudgedStripSheet {
  const measurements = [...lengthsOf(sheet), ...torquesOf(sheet)];
  const open = [
    ...measurements.flatMap(({ label, outcome }) => {
      if (!outcome.ok) return [outcome.reason.text];
      const { judgement, plainly } = outcome.value;
      return judgement === null || judgement.verdict === 'pass' ? [] : [`${label}: ${plainly}`];
    }),
    ...sheet.nicks.filter(({ isDressed }) => !isDressed).map(({ where, what }) => `${where}: ${what}, not dressed`),
    ...sheet.fasteners
      .filter(({ isLocked, locking }) => !isLocked || locking === 'none')
      .map(({ where, count, locking }) => `${where}, ${count}: not locked (${locking})`),
  ];
  return { measurements, open };
}
