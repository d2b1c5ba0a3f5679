import { lawFlow } from '../delivery/slipLaw.ts';
import { printFixed, printRpm } from '../formatStated.ts';
import { LAW_TERMS, type SlipLaw } from '../result.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { CertificateHold } from './deliverySchema.ts';

/** Digits to type into a pocket calculator: one more than any answer needs [-]. */
const DIGITS = 5;

/** '8.3100·10^−13': a power of ten as it is printed. */
function powerOfTen(value: number, digits = DIGITS): string {
  if (value === 0) return '0';
  const [mantissa = '', exponent = '0'] = value.toExponential(digits - 1).split('e');
  const power = String(Number(exponent)).replace('-', '−');
  return power === '0' ? mantissa.replace('-', '−') : `${mantissa.replace('-', '−')}·10^${power}`;
}

/** As the hold is printed: so that whoever types the line meets the printed numbers. */
function rounded(value: number): number {
  return Number(value.toPrecision(DIGITS));
}

/**
 * The slip law spoken at one hold, number by number, so that it can be done again with a pocket calculator.
 *
 * @param law - the fitted law [SI]
 * @param holds - of its run [n holds, one or more in the fit]
 * @returns one line of arithmetic, from the hold of the largest pressure difference; empty without such a hold [-]
 *
 * Source: the law itself, q1 = V_i n − C_l Δp/µ − C_t (2 Δp/ρ)^½ − C_np n Δp, with rounded numbers throughout.
 */
export function workedLine(law: Pick<SlipLaw, 'coefficients'>, holds: readonly CertificateHold[]): string {
  const [hold] = holds
    .filter(({ leftOut, differentialPressurePa }) => leftOut === null && differentialPressurePa.value > 0)
    .sort((a, b) => b.differentialPressurePa.value - a.differentialPressurePa.value);
  if (hold === undefined) return '';
  const coefficients = Object.fromEntries(LAW_TERMS.map((term) => [term, rounded(law.coefficients[term])]));
  const {
    derivedCapacityM3PerRev = 0,
    laminarSlipM3 = 0,
    orificeSlipM2 = 0,
    speedPressureSlipM3PerPa = 0,
  } = coefficients;
  const speedRevPerS = rounded(hold.speedRevPerS.value);
  const differentialPressurePa = rounded(hold.differentialPressurePa.value);
  const dynamicViscosityPaS = rounded(hold.dynamicViscosityPaS);
  const densityKgPerM3 = rounded(hold.densityKgPerM3);
  const point = { speedRevPerS, differentialPressurePa, dynamicViscosityPaS, densityKgPerM3 };
  const flowM3PerS = lawFlow(
    { derivedCapacityM3PerRev, laminarSlipM3, orificeSlipM2, speedPressureSlipM3PerPa },
    point,
  );
  const [n, dp, mu, rho] = [speedRevPerS, differentialPressurePa, dynamicViscosityPaS, densityKgPerM3].map(String);
  const terms = [
    `${powerOfTen(derivedCapacityM3PerRev)} × ${n}`,
    ...(laminarSlipM3 === 0 ? [] : [`${powerOfTen(laminarSlipM3)} × ${dp} / ${mu}`]),
    ...(orificeSlipM2 === 0 ? [] : [`${powerOfTen(orificeSlipM2)} × (2 × ${dp} / ${rho})^½`]),
    ...(speedPressureSlipM3PerPa === 0 ? [] : [`${powerOfTen(speedPressureSlipM3PerPa)} × ${n} × ${dp}`]),
  ];
  const lPerMin = printFixed(differenceFrom(flowM3PerS, unitOf('l/min')), 3);
  const bar = printFixed(differenceFrom(differentialPressurePa, unitOf('bar(a)')), 3);
  return (
    `Hold ${hold.number}, ${printRpm(speedRevPerS)} r/min (n = ${n} rev/s), Δp = ${bar} bar (${dp} Pa), ` +
    `µ = ${mu} Pa·s, ρ = ${rho} kg/m³: q = ${terms.join(' − ')} = ${powerOfTen(flowM3PerS)} m³/s; ` +
    `times 60 000 it is ${lPerMin} l/min.`
  );
}
