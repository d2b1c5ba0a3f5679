import { type Source, type SourceTable, sourceTable } from '../uncertainty/source.ts';

function isAlike(a: Source, b: Source): boolean {
  return (
    a.standardUncertainty === b.standardUncertainty &&
    a.degreesOfFreedom === b.degreesOfFreedom &&
    a.kind === b.kind &&
    a.shape === b.shape &&
    a.pooledAs === b.pooledAs
  );
}

/**
 * One table of sources from several lists that may name the same source: run, gap map, oil.
 *
 * @param lists - of sources [-]
 * @returns table in which each source stands once [-]
 * @throws RangeError if one id stands for two different sources
 */
export function mergeSources(...lists: readonly (readonly Source[])[]): SourceTable {
  const merged = new Map<string, Source>();
  for (const source of lists.flat()) {
    const known = merged.get(source.id);
    if (known !== undefined && !isAlike(known, source)) {
      throw new RangeError(`sources: ${source.id} stands for two different ones`);
    }
    merged.set(source.id, known ?? source);
  }
  return sourceTable([...merged.values()]);
}
