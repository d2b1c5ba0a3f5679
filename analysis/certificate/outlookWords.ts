import { formatStated } from '../formatStated.ts';
import type { DutyOutlook } from '../result.ts';
import { ICE_POINT_K, unitOf } from '../units.ts';

const BEYOND = ', beyond what was measured';

function withUnit(stated: Parameters<typeof formatStated>[0], symbol: string): string {
  const { value, expandedUncertainty, unit } = formatStated(stated, unitOf(symbol));
  return `${value} ± ${expandedUncertainty} ${unit}`;
}

function speed(what: string, found: DutyOutlook['slowestHoldingPressure']): readonly string[] {
  if (!found.ok) return [];
  const { speedRevPerS, beyond } = found.value;
  return [`${what} ${withUnit(speedRevPerS, 'r/min')}${beyond.length === 0 ? '' : BEYOND}`];
}

function hottest({ hottestOil }: DutyOutlook): string {
  const celsius = (kelvin: number): string => `${(kelvin - ICE_POINT_K).toFixed(0)} °C`;
  switch (hottestOil.kind) {
    case 'limit':
      return `met with oil up to ${withUnit(hottestOil.temperatureK, 'degC')}${hottestOil.beyond.length === 0 ? '' : BEYOND}`;
    case 'neverFails':
      return `met with oil up to ${celsius(hottestOil.upToK)} at the least`;
    case 'alwaysFails':
      return `not met with oil at ${celsius(hottestOil.fromK)} or hotter`;
    case 'partsBind':
      return `met until parts bind at ${celsius(hottestOil.atK)}`;
  }
}

/**
 * What the law says about a demand's operating point, in a line: slip there, slowest speeds, hottest oil.
 *
 * @param outlook - of the result [SI]
 * @returns a sentence without its end [-]
 */
export function outlookWords(outlook: DutyOutlook): string {
  return [
    `slip ${withUnit(outlook.slipM3PerS, 'l/min')}`,
    ...speed('pressure held down to', outlook.slowestHoldingPressure),
    ...speed('demand met down to', outlook.slowestMeetingDemand),
    hottest(outlook),
  ].join('; ');
}
