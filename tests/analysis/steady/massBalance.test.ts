import { describe, expect, it } from 'vitest';
import { oilDensity } from '../../../analysis/oil/density.ts';
import { balancedFlows, holdSources, type MeteredFlow } from '../../../analysis/steady/massBalance.ts';
import { exactly, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { channelWith } from '../../support/benchChannel.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';

const BAROMETER_PA = 1e5;
const INLET = { pressurePa: exactly(0.9e5), temperatureK: exactly(320) };
const DELIVERY = exactly(61e5);

function metered(others: Partial<MeteredFlow> = {}): MeteredFlow {
  return {
    flowM3PerS: exactly(2e-4),
    channel: channelWith('flow'),
    meterTemperatureK: null,
    meterPressurePa: null,
    externalDrainM3PerS: null,
    ...others,
  };
}

function balanced(others: Partial<MeteredFlow> = {}) {
  return balancedFlows(metered(others), INLET, DELIVERY, INVENTED_VG46, BAROMETER_PA);
}

/** Density with the compressibility that the balance assumes, 1.5 GPa. */
function density(pressurePa: number, temperatureK: number): number {
  return oilDensity(INVENTED_VG46.densityAt15CKgPerM3, temperatureK) * (1 + (pressurePa - BAROMETER_PA) / 1.5e9);
}

describe('balancedFlows', () => {
  it('keeps the mass: meter, outlet and inlet pass the same kilograms', () => {
    // Conservation of mass with the densities above; first order leaves out (60e5/1.5e9)² = 1.6e-5 at the most.
    const { outletM3PerS, inletM3PerS } = balanced({
      meterTemperatureK: exactly(326),
      meterPressurePa: exactly(2e5),
    });
    const kgPerS = 2e-4 * density(2e5, 326);
    expectRelative(outletM3PerS.value * density(61e5, 320), kgPerS, 4e-5);
    expectRelative(inletM3PerS.value * density(0.9e5, 320), kgPerS, 4e-5);
  });

  it('by hand, where meter and inlet are equally warm', () => {
    // By hand: outlet 1 − (61e5 − 1e5)/1.5e9 = 0.996; inlet 1 + 0.1e5/1.5e9 = 1.0000066667.
    const { outletM3PerS, inletM3PerS } = balanced();
    expectRelative(outletM3PerS.value, 2e-4 * 0.996, 1e-12);
    expectRelative(inletM3PerS.value, 2e-4 * (1 + 1e4 / 1.5e9), 1e-12);
  });

  it('adds the drain to what the pump drew in, and not to what left its outlet', () => {
    const drain = { value: 3e-6, sensitivities: { 'externalDrain.gain': -3e-6 } };
    const [without, withDrain] = [balanced(), balanced({ externalDrainM3PerS: drain })];
    expectRelative(withDrain.inletM3PerS.value, without.inletM3PerS.value + 3e-6, 1e-12);
    expect(withDrain.outletM3PerS).toEqual(without.outletM3PerS);
    expect(withDrain.inletM3PerS.sensitivities['externalDrain.gain']).toBe(-3e-6);
  });

  it('divides by the K-factor at the viscosity of the oil at the meter', () => {
    // A table that is level: 1.02 whatever the viscosity, by its definition true = indicated/1.02.
    const level = [10e-6, 100e-6].map((kinematicViscosityM2PerS) => ({ kinematicViscosityM2PerS, ratio: 1.02 }));
    const channel = channelWith('flow', { kFactor: { table: level, relativeStandardUncertainty: 0.001 } });
    const { inletM3PerS } = balanced({ channel });
    expectRelative(inletM3PerS.value, balanced().inletM3PerS.value / 1.02, 1e-12);
    expectRelative(inletM3PerS.sensitivities['flow.kFactor'] ?? Number.NaN, -inletM3PerS.value, 1e-9);
    // One that falls with viscosity sees a warmer, thinner oil at the meter: a larger ratio, a smaller flow.
    const falling = [
      { kinematicViscosityM2PerS: 10e-6, ratio: 1.05 },
      { kinematicViscosityM2PerS: 100e-6, ratio: 0.95 },
    ];
    const sloped = channelWith('flow', { kFactor: { table: falling, relativeStandardUncertainty: 0 } });
    const cold = balanced({ channel: sloped, meterTemperatureK: exactly(320) }).inletM3PerS.value;
    const warm = balanced({ channel: sloped, meterTemperatureK: exactly(340) }).inletM3PerS.value;
    const expansion = oilDensity(880, 340) / oilDensity(880, 320);
    expect(warm / cold).toBeLessThan(expansion);
  });

  it('assumes what nobody measures, each as a source of its own', () => {
    // By hand: ± 1 K and 60.1e5/(ρ · 1900) K of warming widen the meter's temperature; 1/√3 of each is its standard uncertainty.
    const { sensitivities } = balanced().inletM3PerS;
    const rho = oilDensity(880, 320);
    const expansionPerK = -Math.log(oilDensity(880, 320.5) / oilDensity(880, 319.5));
    const reachK = 1 + 60.1e5 / (rho * 1900);
    expectRelative(sensitivities['flow.meterTemperature'] ?? Number.NaN, -2e-4 * expansionPerK * reachK, 1e-4);
    expect(sensitivities['setUp.barometer']).toBeDefined();
    const sources = sourceTable([
      ...holdSources(),
      {
        id: 'setUp.barometer',
        label: 'b',
        kind: 'calibration',
        standardUncertainty: 50,
        degreesOfFreedom: null,
        shape: 'normal',
        pooledAs: null,
      },
    ]);
    const { standardUncertainty } = stateUncertainty(balanced().outletM3PerS, sources);
    // By hand: the bulk modulus alone, 20 %/√3 of 0.4 % of the flow, is 0.046 % of it; the temperatures add 0.2 to 0.3 %.
    expect(standardUncertainty / 2e-4).toBeGreaterThan(0.00046);
    expect(standardUncertainty / 2e-4).toBeLessThan(0.004);
  });

  it('drops the assumptions where the oil at the meter is measured', () => {
    const { inletM3PerS } = balanced({
      meterTemperatureK: { value: 322, sensitivities: { 'meterTemperature.offset': -1 } },
      meterPressurePa: { value: 1.2e5, sensitivities: { 'meterPressure.offset': -1 } },
    });
    const rests = Object.keys(inletM3PerS.sensitivities).filter((id) => inletM3PerS.sensitivities[id] !== 0);
    expect(rests.sort()).toEqual(['meterPressure.offset', 'meterTemperature.offset', 'oil.bulkModulus']);
  });
});
