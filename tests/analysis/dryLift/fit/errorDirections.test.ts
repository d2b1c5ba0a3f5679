import { describe, expect, it } from 'vitest';
import { errorDirections } from '../../../../analysis/dryLift/fit/errorDirections.ts';
import { exactly, type Source, sourceTable } from '../../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../../support/expectRelative.ts';

function source(id: string, standardUncertainty: number): Source {
  return {
    id,
    label: id,
    kind: 'calibration',
    standardUncertainty,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
}

const SOURCES = sourceTable([source('a', 3), source('b', 4), source('c', 2), source('none', 0)]);

describe('errors as unknowns of a fit', () => {
  it('joins errors that act through one input alone, as root of the sum of squares', () => {
    const input = { value: 10, sensitivities: { a: 1, b: 1 } };
    const { directions, gainsOf } = errorDirections([input], [], SOURCES);
    expect(directions).toHaveLength(1);
    expectRelative(gainsOf(input)[0]?.[1] ?? 0, 5, 1e-12); // √(3² + 4²)
    // z = (e_a + e_b)/5
    expectRelative(directions[0]?.perSource.a ?? 0, 0.2, 1e-12);
    expectRelative(directions[0]?.perSource.b ?? 0, 0.2, 1e-12);
  });

  it('keeps an error that two inputs share apart, so that it moves both', () => {
    const first = { value: 1, sensitivities: { a: 1, c: 1 } };
    const second = { value: 2, sensitivities: { a: -2 } };
    const { directions, gainsOf } = errorDirections([first, second], [], SOURCES);
    expect(directions).toHaveLength(2);
    const shared = gainsOf(second)[0]?.[0];
    expect(gainsOf(first).find(([direction]) => direction === shared)?.[1]).toBe(3);
    expect(gainsOf(second)[0]?.[1]).toBe(-6);
  });

  it('sees a gain move the readings of a row each by its own amount, and says that no model is needed for it', () => {
    const row = [100, 50].map((value) => ({ value, sensitivities: { c: value } }));
    const { directions, gainsOf } = errorDirections([exactly(7)], [row], SOURCES);
    expect(directions.map(({ actsOnRowsOnly }) => actsOnRowsOnly)).toEqual([true]);
    expect(row.map((input) => gainsOf(input)[0]?.[1])).toEqual([200, 100]);
  });

  it('leaves out errors that are nothing and refuses those that nobody named', () => {
    expect(errorDirections([{ value: 1, sensitivities: { none: 1 } }], [], SOURCES).directions).toEqual([]);
    expect(() => errorDirections([{ value: 1, sensitivities: { unknown: 1 } }], [], SOURCES)).toThrow(RangeError);
  });
});
