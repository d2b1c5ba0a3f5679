import { oilState } from '../oil/oilState.ts';
import type { LawEvidence, SpokenPoint } from './spokenLaw.ts';

/** In what a point lies outside what was measured. */
export type Beyond = 'speed' | 'pressure' | 'temperature' | 'viscosity';

/** Set points are met by hand: so much outside the holds is not outside [1]. */
const SET_POINT_SHARE = 0.01;

/** Oil of a steady bench wanders by so much; house limit, no source [K]. */
const SAME_TEMPERATURE_K = 2;

/** By what the oil wanders, its viscosity does [1]. */
const SAME_VISCOSITY_SHARE = 0.1;

function isOutside(value: number, [low, high]: readonly [number, number], allowance: number): boolean {
  return value < low - allowance || value > high + allowance;
}

/**
 * In what a point lies outside the holds that the law was fitted to. There the law is spoken only with these words.
 *
 * @param evidence - law with its range, and oils [-]
 * @param at - point, at the spoken oil [rev/s, Pa, K]
 * @returns none, or what lies outside: speed and pressure by over 1 % of the largest hold, temperature by over 2 K, viscosity by over 10 % [-]
 */
export function beyondMeasured(evidence: LawEvidence, at: SpokenPoint): readonly Beyond[] {
  const { law, oil, runOil } = evidence;
  const { speedRevPerS, differentialPressurePa, oilTemperatureK } = law.range;
  const beyond: Beyond[] = [];
  if (isOutside(at.speedRevPerS, speedRevPerS, SET_POINT_SHARE * speedRevPerS[1])) beyond.push('speed');
  const pressureAllowancePa = SET_POINT_SHARE * Math.abs(differentialPressurePa[1]);
  if (isOutside(at.differentialPressurePa, differentialPressurePa, pressureAllowancePa)) beyond.push('pressure');
  if (isOutside(at.oilTemperatureK, oilTemperatureK, SAME_TEMPERATURE_K)) beyond.push('temperature');
  const thinnestPaS = oilState(runOil, oilTemperatureK[1]).dynamicViscosityPaS;
  const thickestPaS = oilState(runOil, oilTemperatureK[0]).dynamicViscosityPaS;
  const viscosityPaS = oilState(oil.record, at.oilTemperatureK).dynamicViscosityPaS;
  if (
    viscosityPaS < thinnestPaS * (1 - SAME_VISCOSITY_SHARE) ||
    viscosityPaS > thickestPaS * (1 + SAME_VISCOSITY_SHARE)
  ) {
    beyond.push('viscosity');
  }
  return beyond;
}
