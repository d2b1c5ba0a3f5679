import { no, type Outcome, yes } from '../outcome.ts';
import type { TurnedByHandGeometry } from '../records/geometry/turnedByHand.ts';
import type { Source } from '../uncertainty/source.ts';
import { type GeometryRefusal, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** A scatter needs two; more is better [1]. */
const LEAST_REPEATS = 2;

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * Swept volume as turned by hand: the mean over the repeats of volume caught over turns counted, flooded, against no
 * pressure. The vessel's error and that of the partial turn are the same in every repeat; what differs from one to the
 * next is the scatter s/√n, on n − 1 degrees of freedom.
 *
 * @param geometry - repeats with the uncertainties of vessel and partial turn [m³, rev]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev]; or why not [-]
 *
 * Source: JCGM 100:2008, 4.2.3 (scatter of a mean), 5.1.2 (combination).
 */
export function handTurnedSweptVolume(geometry: TurnedByHandGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const { repeats, volumeStandardUncertaintyM3, partialTurnStandardUncertaintyRev } = geometry;
  if (repeats.length < LEAST_REPEATS) {
    return no({
      code: 'TOO_FEW_REPEATS',
      quantity: 'repeats [1]',
      value: repeats.length,
      limit: LEAST_REPEATS,
      text: `turned by hand ${repeats.length} time${repeats.length === 1 ? '' : 's'}: at least ${LEAST_REPEATS} show how well it repeats`,
    });
  }
  const perTurn = repeats.map(({ volumeM3, turnsRev }) => volumeM3 / turnsRev);
  const value = mean(perTurn);
  const squares = perTurn.reduce((sum, each) => sum + (each - value) ** 2, 0);
  const degreesOfFreedom = repeats.length - 1;
  const scatter: Source = {
    id: 'geometry.repeats',
    label: `scatter of ${repeats.length} repeats`,
    // Not 'random': the mean of these turns is the same in every hold it is compared with.
    kind: 'calibration',
    standardUncertainty: Math.sqrt(squares / degreesOfFreedom / repeats.length),
    degreesOfFreedom,
    shape: 'normal',
    pooledAs: null,
  };
  const swept = sweptVolumeFrom(
    value,
    [
      {
        id: 'caughtVolume',
        label: 'volume of the vessel',
        measured: {
          value: mean(repeats.map(({ volumeM3 }) => volumeM3)),
          standardUncertainty: volumeStandardUncertaintyM3,
        },
        derivative: mean(repeats.map(({ turnsRev }) => 1 / turnsRev)),
      },
      {
        id: 'partialTurn',
        label: 'partial turn',
        measured: {
          value: mean(repeats.map(({ turnsRev }) => turnsRev)),
          standardUncertainty: partialTurnStandardUncertaintyRev,
        },
        derivative: -mean(repeats.map(({ volumeM3, turnsRev }) => volumeM3 / turnsRev ** 2)),
      },
    ],
    null,
    {
      flowRipple: null,
      basis: `as turned by hand ${repeats.length} times, against no pressure; what leaked back while it was turned is not in it`,
    },
  );
  return yes({
    ...swept,
    sweptVolume: { value, sensitivities: { ...swept.sweptVolume.sensitivities, [scatter.id]: 1 } },
    sources: [...swept.sources, scatter],
  });
}
