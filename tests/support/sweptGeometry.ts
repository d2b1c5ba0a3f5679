import { expect } from 'vitest';
import type { SweptVolume } from '../../analysis/displacement/geometryResult.ts';
import { sweptVolumeOf } from '../../analysis/displacement/sweptVolume.ts';
import type { Measured } from '../../analysis/records/fields.ts';
import { type PumpGeometry, pumpRecord } from '../../analysis/records/pumpRecord.ts';
import { expectRelative } from './expectRelative.ts';

/** A length or angle with a standard uncertainty of 10 µm or 10 µrad. */
export function measured(value: number): Measured {
  return { value, standardUncertainty: 1e-5 };
}

export function swept(geometry: PumpGeometry): SweptVolume {
  const result = sweptVolumeOf(geometry);
  if (!result.ok) throw new Error(result.reason.text);
  return result.value;
}

/** V_g of a geometry, in mm³. */
export function sweptMm3(geometry: PumpGeometry): number {
  return swept(geometry).sweptVolume.value * 1e9;
}

/** The same geometry with every length of it so many times as long. */
export function scaledLengths(geometry: PumpGeometry, scale: number): PumpGeometry {
  const scaled = Object.entries(geometry).map(([key, field]) => {
    const isLength = key.endsWith('M') && typeof field === 'object' && 'value' in field;
    return [key, isLength ? { ...field, value: field.value * scale } : field];
  });
  return pumpRecord.shape.geometry.parse(Object.fromEntries(scaled));
}

/** Checks every sensitivity but the model's against central differences; `keys` names the field of each source. */
export function expectSensitivities(geometry: PumpGeometry, keys: Readonly<Record<string, string>>): void {
  const { sweptVolume, sources } = swept(geometry);
  const ids = sources.map(({ id }) => id).filter((id) => id !== 'geometry.model');
  expect(ids).toEqual(Object.keys(keys));
  for (const [id, key] of Object.entries(keys)) {
    const field = Object.entries(geometry).find(([name]) => name === key)?.[1];
    const step = 1e-4 * field.value;
    const at = (value: number): number =>
      swept(pumpRecord.shape.geometry.parse({ ...geometry, [key]: { ...field, value } })).sweptVolume.value;
    const slope = (at(field.value + step) - at(field.value - step)) / (2 * step);
    const sensitivity = sweptVolume.sensitivities[id] ?? Number.NaN;
    const scale = sweptVolume.value / field.value;
    expect(Math.abs(sensitivity - slope) / scale, `${id}: ${sensitivity} against ${slope}`).toBeLessThan(1e-6);
  }
  if (sources.length > ids.length) {
    expectRelative(sweptVolume.sensitivities['geometry.model'] ?? Number.NaN, sweptVolume.value, 1e-12);
  }
}
