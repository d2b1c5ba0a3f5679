import type { SourceTable, Uncertain } from '../../uncertainty/source.ts';

/** A standard normal unknown of the fit that stands for one error, or for several that act through one input alone. */
type ErrorDirection = {
  /** ∂unknown/∂source, by source id. */
  readonly perSource: Readonly<Record<string, number>>;
  /** It acts on rows only. */
  readonly actsOnRowsOnly: boolean;
};

export type ErrorDirections = {
  readonly directions: readonly ErrorDirection[];
  /** What the unknowns add to an input: pairs of direction and gain. */
  readonly gainsOf: (input: Uncertain) => readonly (readonly [direction: number, gain: number])[];
};

/**
 * Errors of many inputs as standard normal unknowns: z = Σ s_j e_j/u for errors that act through a single input, whose
 * standard uncertainty by them is u; z = e/u for an error that several inputs share.
 *
 * @param alone - inputs that are single numbers [any unit]
 * @param rows - inputs that are rows of numbers, such as readings of one channel [any unit]
 * @param sources - every source that an input is sensitive to [-]
 * @returns unknowns, and what each adds to an input [unit of the input]
 * @throws RangeError if a source is not in the table
 *
 * Source: JCGM 102:2011, 6.2 (errors as inputs of their own); grouping derived here: only the sum acts.
 */
export function errorDirections(
  alone: readonly Uncertain[],
  rows: readonly (readonly Uncertain[])[],
  sources: SourceTable,
): ErrorDirections {
  const deviationOf = (id: string): number => {
    const source = sources[id];
    if (source === undefined) throw new RangeError(`sources: none is called ${id}`);
    return source.standardUncertainty;
  };
  const uses = new Map<string, number>();
  const count = (id: string, by: number): void => {
    if (deviationOf(id) > 0) uses.set(id, (uses.get(id) ?? 0) + by);
  };
  for (const { sensitivities } of alone) for (const id of Object.keys(sensitivities)) count(id, 1);
  for (const row of rows) {
    // A row counts twice: its numbers see an error each in its own way.
    for (const id of new Set(row.flatMap(({ sensitivities }) => Object.keys(sensitivities)))) count(id, 2);
  }

  const aloneIds = new Set(alone.flatMap(({ sensitivities }) => Object.keys(sensitivities)));
  const directions: ErrorDirection[] = [];
  const indexOfId = new Map<string, number>();
  const single = (id: string): number => {
    const known = indexOfId.get(id);
    if (known !== undefined) return known;
    indexOfId.set(id, directions.length);
    return directions.push({ perSource: { [id]: 1 / deviationOf(id) }, actsOnRowsOnly: !aloneIds.has(id) }) - 1;
  };
  const gains = new Map<Uncertain, readonly (readonly [number, number])[]>();
  for (const input of alone) {
    if (gains.has(input)) continue;
    const entries = Object.entries(input.sensitivities).filter(([id, by]) => by !== 0 && uses.has(id));
    const exclusive = entries.filter(([id]) => uses.get(id) === 1);
    const pairs = entries
      .filter(([id]) => exclusive.length < 2 || uses.get(id) !== 1)
      .map(([id, by]) => [single(id), by * deviationOf(id)] as const);
    if (exclusive.length >= 2) {
      const deviation = Math.hypot(...exclusive.map(([id, by]) => by * deviationOf(id)));
      const perSource = Object.fromEntries(exclusive.map(([id, by]) => [id, by / deviation]));
      pairs.push([directions.push({ perSource, actsOnRowsOnly: false }) - 1, deviation]);
    }
    gains.set(input, pairs);
  }
  const gainsOfRow = (input: Uncertain): readonly (readonly [number, number])[] =>
    Object.entries(input.sensitivities)
      .filter(([id, by]) => by !== 0 && uses.has(id))
      .map(([id, by]) => [single(id), by * deviationOf(id)] as const);
  for (const row of rows) for (const input of row) gains.set(input, gainsOfRow(input));
  return { directions, gainsOf: (input) => gains.get(input) ?? [] };
}
