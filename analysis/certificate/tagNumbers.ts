import { printRpm } from '../formatStated.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { CertificateData } from './certificateData.ts';
import { demandPlace, demandValue } from './demandWords.ts';
import type { CertificateDryLift } from './dryLiftSchema.ts';

/** A number on the tie-on tag: what it is, its value with unit, and where it holds. */
export type TagNumber = { readonly name: string; readonly value: string; readonly where: string };

const NOT_TESTED = 'not tested';

/** The value of the first demand of a kind that was decided by a measurement. */
function demanded(data: CertificateData, name: string, quantity: 'deliveredFlow' | 'volumetricEfficiency'): TagNumber {
  const entry = data.demands.find(({ demand, value }) => demand.quantity === quantity && value !== null);
  if (entry === undefined || entry.value === null) return { name, value: NOT_TESTED, where: '' };
  const { value, expandedUncertainty, unit } = demandValue(entry.demand, entry.value);
  return { name, value: `${value} ± ${expandedUncertainty} ${unit}`, where: demandPlace(entry.demand) };
}

function capacity({ theory }: CertificateData): TagNumber {
  const stated = theory.derivedCapacityM3PerRev ?? theory.sweptVolumeM3PerRev;
  const unit = unitOf('cm3/rev');
  const value = differenceFrom(stated.value, unit).toFixed(2);
  const u = differenceFrom(stated.expandedUncertainty, unit).toFixed(2);
  const isDerived = theory.derivedCapacityM3PerRev !== null;
  return {
    name: 'a turn moves',
    value: `${value} ± ${u} cm³`,
    where: isDerived ? 'measured, V_i' : 'by geometry, V_g',
  };
}

/** The start from the highest lift that brought oil; of several the slowest. */
function highestPrimed(dryLift: readonly CertificateDryLift[]): CertificateDryLift | undefined {
  return dryLift
    .filter(({ hasPrimed, primingTimeS }) => hasPrimed && primingTimeS !== null)
    .sort((a, b) => b.staticLiftM - a.staticLiftM || (b.primingTimeS?.value ?? 0) - (a.primingTimeS?.value ?? 0))[0];
}

function dryStart({ dryLift }: CertificateData): readonly [TagNumber, TagNumber] {
  const start = highestPrimed(dryLift);
  if (start === undefined) {
    const value = dryLift.some(({ kind }) => kind === 'lift') ? 'not proven' : NOT_TESTED;
    return [
      { name: 'draws dry from', value, where: '' },
      { name: 'oil after', value, where: '' },
    ];
  }
  const where = `dry, ${printRpm(start.speedRevPerS)} r/min, class ${start.wetness}`;
  return [
    { name: 'draws dry from', value: `${start.staticLiftM.toFixed(2)} m`, where },
    {
      name: 'oil after',
      value: `${(start.primingTimeS?.value ?? Number.NaN).toFixed(1)} s`,
      where: 'from motor start',
    },
  ];
}

function relief({ pump }: CertificateData): TagNumber {
  const setting = pump.reliefValveSettingPa;
  const value = setting === null ? 'not stated' : `${differenceFrom(setting, unitOf('bar(a)')).toFixed(1)} bar`;
  return { name: 'relief valve opens', value, where: setting === null ? 'or none: fit one' : 'pressure difference' };
}

/**
 * The six numbers of a certificate that whoever fits the pump must have at hand.
 *
 * @param data - of the certificate [SI]
 * @returns flow, efficiency, capacity, lift, priming time, relief valve, in the shop's units [-]
 */
export function tagNumbers(data: CertificateData): readonly TagNumber[] {
  return [
    demanded(data, 'delivers', 'deliveredFlow'),
    demanded(data, 'efficiency q/(V_i n)', 'volumetricEfficiency'),
    capacity(data),
    ...dryStart(data),
    relief(data),
  ];
}
