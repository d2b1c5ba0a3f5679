import { describe, expect, it } from 'vitest';
import { capacitySuspicion, directionFindings } from '../../../analysis/delivery/capacitySuspicion.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

const IN_LITRES = { flowUnit: 'l/min', speedUnit: 'r/min' };

function hold(number: number, flowM3PerS: number, differentialPressurePa: number, speedRevPerS = 15) {
  const oil = { dynamicViscosityPaS: 0.04, densityKgPerM3: 860 };
  return syntheticHold(number, { speedRevPerS, differentialPressurePa, flowM3PerS, ...oil }, 1e-7);
}

describe('capacitySuspicion', () => {
  it('is silent where the capacity agrees with the geometry, or may', () => {
    expect(capacitySuspicion(0.96, 0.01, IN_LITRES)).toEqual([]);
    expect(capacitySuspicion(0.8, 0.2, IN_LITRES)).toEqual([]);
  });

  it('names the mistake that would explain the ratio', () => {
    // Factors: NIST SP 811 (2008), B.8: 1 US gal = 3.785412 l, 1 imp gal = 4.54609 l; 60 s/min; 1 m³/h = 1000/60 l/min;
    // 2π rad a turn. A meter that speaks gallons and is read in litres shows 1/3.785 of the flow; the pump itself is 3 % off.
    const cases = [
      [0.97 / 3.785412, IN_LITRES, /speaks US gal\/min and is read as l\/min/],
      [0.97 * 3.785412, { flowUnit: 'US gal/min', speedUnit: 'r/min' }, /speaks l\/min and is read as US gal\/min/],
      [0.97 / 4.54609, IN_LITRES, /speaks imp gal\/min and is read as l\/min/],
      [0.97 * 60, IN_LITRES, /speaks l\/h and is read as l\/min.*speed in rev\/s that is read as r\/min/],
      [0.97 / 60, { flowUnit: 'l/min', speedUnit: 'rev/s' }, /speed in r\/min that is read as rev\/s/],
      [(0.97 * 60) / 1000, IN_LITRES, /speaks m³\/h and is read as l\/min/],
      [(0.97 * 1000) / 60, { flowUnit: 'm3/h', speedUnit: 'r/min' }, /speaks l\/min and is read as m³\/h/],
      [0.97 * 2 * Math.PI, IN_LITRES, /swept volume per radian/],
      [0.97 * 10, IN_LITRES, /decimal point/],
      [0.97 * 0.5, IN_LITRES, /every other flow pulse/],
      [0.97 * 16.387064, IN_LITRES, /cubic inches typed in as cubic centimetres/],
    ] as const;
    for (const [ratio, declared, words] of cases) {
      const [finding, ...others] = capacitySuspicion(ratio, 0.01 * ratio, declared);
      expect(finding).toMatchObject({ code: 'FLOW_UNIT', severity: 'unfit' });
      expect(finding?.text).toMatch(words);
      expect(others).toEqual([]);
    }
  });

  it('warns of imperial gallons read as US ones, which a sound pump might nearly reach', () => {
    // 4.54609/3.785412 = 1.20095.
    const [finding] = capacitySuspicion(1 / 1.20095, 0.01, { flowUnit: 'US gal/min', speedUnit: 'r/min' });
    expect(finding).toMatchObject({ code: 'FLOW_UNIT', severity: 'warning' });
    expect(finding?.text).toMatch(/speaks imp gal\/min/);
  });

  it('says so where no mistake explains the ratio', () => {
    expect(capacitySuspicion(0.7, 0.01, IN_LITRES)).toMatchObject([
      { code: 'CAPACITY_IMPLAUSIBLE', severity: 'unfit' },
    ]);
    expect(capacitySuspicion(1.35, 0.01, IN_LITRES)).toMatchObject([{ code: 'CAPACITY_IMPLAUSIBLE' }]);
  });

  it('refuses a ratio that is none', () => {
    expect(() => capacitySuspicion(Number.NaN, 0.01, IN_LITRES)).toThrow(/capacityRatio/);
    expect(() => capacitySuspicion(-1, 0.01, IN_LITRES)).toThrow(/capacityRatio/);
  });
});

describe('directionFindings', () => {
  it('is silent on a sound run, one stray hold included', () => {
    expect(directionFindings([hold(1, 2e-4, 1e5), hold(2, 2e-4, 3e5), hold(3, 2e-4, -1e3)])).toEqual([]);
    expect(directionFindings([])).toEqual([]);
  });

  it('sees exchanged ports', () => {
    const holds = [hold(1, 2e-4, -1e5), hold(2, 2e-4, -3e5)];
    expect(directionFindings(holds)).toMatchObject([{ code: 'PORTS_SWAPPED', severity: 'unfit' }]);
  });

  it('sees reversed rotation, by flow or by speed', () => {
    const byFlow = [hold(1, -2e-4, 1e5), hold(2, -2e-4, 3e5)];
    const bySpeed = [hold(1, 2e-4, 1e5, -15), hold(2, 2e-4, 3e5, -15)];
    for (const holds of [byFlow, bySpeed]) {
      expect(directionFindings(holds)).toMatchObject([{ code: 'ROTATION_REVERSED', severity: 'unfit' }]);
    }
  });
});
