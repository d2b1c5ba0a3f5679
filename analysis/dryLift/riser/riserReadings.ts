import type { PlacedMark } from '../../placeMarks.ts';
import type { Measured } from '../../records/fields.ts';
import type { SetUp } from '../../records/runRecord.ts';

/** Oil seen in a clear riser, by tape measure over the oil surface. */
export type RiserReading = {
  /** In the run's elapsed time; null: noted as the highest, without its time. */
  readonly atS: number | null;
  readonly heightM: Measured;
};

/** A meniscus in a riser against a tape, where the mark states nothing: common practice, no source [m]. */
const TAPE_STANDARD_UNCERTAINTY_M = 0.003;

const METRES_IN: Readonly<Record<string, number>> = { mm: 1e-3, cm: 1e-2, m: 1 };

/** 'riser 0.43 m', 'riser at 430 ± 6 mm'. */
const RISER = /\briser\D*?(\d+(?:[.,]\d+)?)\s*(?:±\s*(\d+(?:[.,]\d+)?)\s*)?(mm|cm|m)\b/i;

function numberIn(text: string): number {
  return Number(text.replace(',', '.'));
}

/**
 * What marks and set-up say of oil in a clear riser: a mark such as 'riser 0.43 m' or 'riser 430 ± 6 mm', ± for 95 %.
 *
 * @param marks - of the run, in its elapsed time [s]
 * @param setUp - of the run [-]
 * @returns readings in the order of the marks, that of the set-up last [s, m]
 */
export function riserReadings(
  marks: readonly PlacedMark[],
  setUp: Pick<SetUp, 'riserHeightM'>,
): readonly RiserReading[] {
  const marked = marks.flatMap(({ text, elapsedS }): readonly RiserReading[] => {
    const [, height, expanded, unit = 'm'] = RISER.exec(text) ?? [];
    if (height === undefined || elapsedS === null) return [];
    const metres = METRES_IN[unit.toLowerCase()] ?? 1;
    const standardUncertainty =
      expanded === undefined ? TAPE_STANDARD_UNCERTAINTY_M : (metres * numberIn(expanded)) / 2;
    return [{ atS: elapsedS, heightM: { value: metres * numberIn(height), standardUncertainty } }];
  });
  return setUp.riserHeightM === null ? marked : [...marked, { atS: null, heightM: setUp.riserHeightM }];
}
