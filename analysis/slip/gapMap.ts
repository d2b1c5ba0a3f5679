import type { Outcome } from '../outcome.ts';
import type { Measured } from '../records/fields.ts';
import type { Clearance } from '../strip/clearance.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';

/** Where oil slips back; the words of 'goes over the faces'. */
export type GapPlace =
  | 'over the tips'
  | 'over the faces'
  | 'along the shafts'
  | 'round the ring'
  | 'through the mesh'
  | 'between rotor and ring'
  | 'over the relief valve seat';

/** One way of the oil at one state of the clearances. */
export type Gap = {
  readonly place: GapPlace;
  /** Which of them: 'driver', 'drive end bush'. */
  readonly label: string;
  /** Slip is conductance × Δp/µ [m³]. */
  readonly conductanceM3: number;
  /** Oil carried towards delivery by moving walls, beyond V_g; negative: carried back [m³/rev]. */
  readonly dragM3PerRev: number;
  /** Across the flow at its narrowest; with the wall's half speed × height it makes the Reynolds number [m]. */
  readonly breadthM: number;
  /** U h/2 in a turn [m²/rev]. */
  readonly dragPerBreadthM2PerRev: number;
};

/** A number that a gap map depends on, with what it came from. */
export type GapQuantity = {
  readonly id: string;
  readonly label: string;
  readonly value: Uncertain;
  readonly sources: readonly Source[];
  /** A cold clearance, which may be asked for backwards. */
  readonly isClearance: boolean;
};

export const PARTS = ['driver', 'driven'] as const;

/** Quantities that hold the radial tip clearances. */
export const TIPS = { driver: 'tip.driver', driven: 'tip.driven' } as const;

/** Reads a quantity by its id. */
export type QuantityReader = (id: string) => number;

/** Numbers that stand in for a map's own, by quantity id. */
export type Replaced = Readonly<Record<string, number>>;

export type GapsAt = (read: QuantityReader, temperatureK: number) => Outcome<readonly Gap[], StripRefusal>;

/** All ways of the oil through one pump, as a function of clearances and temperature. */
export type GapMap = {
  readonly quantities: readonly GapQuantity[];
  readonly gapsAt: (temperatureK: number, replaced: Replaced) => Outcome<readonly Gap[], StripRefusal>;
};

/** Builds a map from its quantities and the function that turns them into gaps. */
export function gapMap(quantities: readonly GapQuantity[], gapsAt: GapsAt): GapMap {
  const nominal: Readonly<Record<string, number>> = Object.fromEntries(
    quantities.map(({ id, value }) => [id, value.value]),
  );
  return {
    quantities,
    gapsAt: (temperatureK, replaced) =>
      gapsAt((id) => {
        const value = replaced[id] ?? nominal[id];
        if (value === undefined) throw new RangeError(`id: the gap map has no quantity ${JSON.stringify(id)}`);
        return value;
      }, temperatureK),
  };
}

/** A clearance of the strip sheet as a quantity of the map. */
export function clearanceQuantity(id: string, label: string, { clearanceM, sources }: Clearance): GapQuantity {
  return { id, label, value: clearanceM, sources, isClearance: true };
}

/** A measured shape or an assumption as a quantity of the map; its source is `slip.<id>`. */
export function shapeQuantity(
  id: string,
  label: string,
  measured: Measured,
  shape: Source['shape'] = 'normal',
  isClearance = false,
): GapQuantity {
  const source: Source = {
    id: `slip.${id}`,
    label,
    kind: 'calibration',
    standardUncertainty: measured.standardUncertainty,
    degreesOfFreedom: null,
    shape,
    pooledAs: null,
  };
  return {
    id,
    label,
    value: { value: measured.value, sensitivities: { [source.id]: 1 } },
    sources: [source],
    isClearance,
  };
}

/**
 * The same pump with one quantity changed by so much: a thinner gasket, a dressed face. What it was measured with stays.
 *
 * @param map - gap map [-]
 * @param id - quantity, as `quantities` lists it [-]
 * @param by - change [unit of the quantity]
 * @returns changed map; what the change makes impossible, its prediction refuses [-]
 * @throws RangeError if the map has no such quantity
 */
export function withChange(map: GapMap, id: string, by: number): GapMap {
  const found = map.quantities.find((quantity) => quantity.id === id);
  if (found === undefined) throw new RangeError(`id: the gap map has no quantity ${JSON.stringify(id)}`);
  const value = { ...found.value, value: found.value.value + by };
  return {
    quantities: map.quantities.map((quantity) => (quantity === found ? { ...found, value } : quantity)),
    gapsAt: (temperatureK, replaced) => map.gapsAt(temperatureK, { [id]: value.value, ...replaced }),
  };
}
