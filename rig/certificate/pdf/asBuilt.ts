import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { StripSheet } from '../../../analysis/records/stripSheet.ts';
import { plain, withUncertainty } from './printed.ts';

const NOT_STATED = 'not stated';

/** Words of a table whose heading says the rest. */
function shortly(plainly: string): string {
  return plainly.replace(' the limit', '');
}

/** Name, value in millimetres, and whether it keeps its limit. */
export function clearanceRows({ asBuilt }: CertificateData): readonly (readonly string[])[] {
  return asBuilt.flatMap(({ clearances }) =>
    clearances.map(({ name, clearanceM, plainly }) => [name, withUncertainty(clearanceM, 'mm', ''), shortly(plainly)]),
  );
}

function gasketWords({ endFloat }: StripSheet): string {
  if (endFloat === null) return NOT_STATED;
  if (endFloat.method === 'direct') return 'not stated; the end float was felt directly';
  const { gasketMaterial, gasketThicknessM, gasketCrushM } = endFloat;
  return `${gasketMaterial}, ${plain(gasketThicknessM.value, 'mm', 3)} thick, ${plain(gasketCrushM.value, 'mm', 2)} taken off by tightening`;
}

function lockingWords({ fasteners }: StripSheet): string {
  if (fasteners.length === 0) return NOT_STATED;
  const open = fasteners.filter(({ isLocked }) => !isLocked);
  const done = fasteners
    .filter(({ isLocked }) => isLocked)
    .map(({ where, count, locking }) => `${where} (${count}, ${locking})`);
  return [...done, ...open.map(({ where, count }) => `NOT LOCKED: ${where} (${count})`)].join('; ');
}

function workWords({ nicks, cleaning }: StripSheet): string {
  const dressed = nicks.filter(({ isDressed }) => isDressed).length;
  const left = nicks.filter(({ isDressed }) => !isDressed).map(({ where, what }) => `${where}: ${what}, left as it is`);
  return [cleaning.how, ...(dressed === 0 ? [] : [`nicks dressed: ${dressed}`]), ...left].join('; ');
}

/** What the strip sheets say besides clearances; the latest counts. */
export function asBuiltPairs({ asBuilt, pump, runs }: CertificateData): readonly (readonly [string, string])[] {
  const { body, gears, bushes } = pump.materials;
  const materials = `body ${body ?? NOT_STATED}, gears ${gears ?? NOT_STATED}, bushes ${bushes ?? NOT_STATED}`;
  const ends = pump.shaftEnds.map(({ where, sealedBy }) => `${where}: ${sealedBy}`).join('; ');
  const common: readonly (readonly [string, string])[] = [
    ['Materials', materials],
    ['Shaft ends', ends === '' ? NOT_STATED : ends],
  ];
  const sheet = asBuilt.at(-1)?.stripSheet;
  if (sheet === undefined) {
    const carried = runs.some(({ stripSheet }) => stripSheet !== null);
    return [
      ['Strip sheet', carried ? 'named by the runs, not printed here' : 'none was filed: clearances not stated'],
      ...common,
    ];
  }
  const { id, version, occasion, measuredOn, measuredBy, backlashM, partsRenewed, turning, partsTemperatureK } = sheet;
  return [
    [
      'Strip sheet',
      `${id}, version ${version}: ${occasion}, measured on ${measuredOn} by ${measuredBy} at ${plain(partsTemperatureK.value, 'degC', 3)}`,
    ],
    ['Gasket', gasketWords(sheet)],
    ['Backlash', backlashM === null ? NOT_STATED : plain(backlashM.value, 'mm', 2)],
    ['Parts renewed', partsRenewed.length === 0 ? NOT_STATED : partsRenewed.join('; ')],
    ['Work done', workWords(sheet)],
    ['Locking', lockingWords(sheet)],
    ['Turning by hand', turning === null ? 'not felt' : plain(turning.freeTorqueNm.value, 'N m', 2)],
    ...common,
  ];
}
