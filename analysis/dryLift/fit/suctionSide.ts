import type { Measured } from '../../records/fields.ts';
import type { SetUp } from '../../records/runRecord.ts';
import { combine, exactly, type Source, type Uncertain } from '../../uncertainty/source.ts';
import type { StatedDeadVolume, UncertainPiece, UncertainPipe } from './measuredStartTypes.ts';

/** What is taken where a set-up states nothing: common practice with tape and calliper, no source. */
const ASSUMED_SUCTION_SIDE = {
  boreRelativeStandardUncertainty: 0.01,
  lengthStandardUncertaintyM: 0.01,
  deadVolumeRelativeStandardUncertainty: 0.3,
  /** Below the oil surface, for a pipe that is not described piece by piece. */
  submergedLengthM: { value: 0.15, standardUncertainty: 0.05 },
} as const;

/** The pipe table needs a length; a foot at the very surface has next to none [m]. */
const LEAST_SUBMERGED_M = 1e-3;

export type SuctionSide = {
  readonly pipe: UncertainPipe;
  readonly deadVolume: StatedDeadVolume;
  readonly sources: readonly Source[];
  /** What was assumed, in words; empty: all was stated. */
  readonly assumed: readonly string[];
};

function setUpSource(id: string, label: string, standardUncertainty: number): Source {
  const common = { kind: 'calibration', degreesOfFreedom: null, shape: 'normal', pooledAs: null } as const;
  return { ...common, id: `setUp.${id}`, label, standardUncertainty };
}

/** A value whose only error is a source of its own. */
function own({ value }: Measured, source: Source): Uncertain {
  return { value, sensitivities: { [source.id]: 1 } };
}

function straightPipe(setUp: SetUp, lift: Uncertain, add: (source: Source) => Source): UncertainPipe {
  const stated = setUp.suctionSideStandardUncertainty;
  const bore = add(
    setUpSource(
      'suctionBore',
      'suction pipe, bore',
      stated?.boreM ?? ASSUMED_SUCTION_SIDE.boreRelativeStandardUncertainty * setUp.suctionPipeBoreM,
    ),
  );
  const boreM = own({ value: setUp.suctionPipeBoreM, standardUncertainty: 0 }, bore);
  const riser: UncertainPiece = { boreM, lengthM: lift, riseM: lift, fittingsLossCoefficient: 0 };
  const submerged = add(
    setUpSource(
      'submergedLength',
      'suction pipe, length below the oil',
      ASSUMED_SUCTION_SIDE.submergedLengthM.standardUncertainty,
    ),
  );
  const common = {
    submergedLengthM: own(ASSUMED_SUCTION_SIDE.submergedLengthM, submerged),
    strainerLossCoefficient: 0,
    hasFootValve: false,
  };
  const restM = setUp.suctionPipeLengthM - lift.value;
  if (restM <= 0) return { ...common, pieces: [riser] };
  const length = add(
    setUpSource(
      'suctionLength',
      'suction pipe, length',
      stated?.lengthM ?? ASSUMED_SUCTION_SIDE.lengthStandardUncertaintyM,
    ),
  );
  const lengthM = combine(restM, [
    { input: { value: 0, sensitivities: { [length.id]: 1 } }, derivative: 1 },
    { input: lift, derivative: -1 },
  ]);
  return { ...common, pieces: [riser, { boreM, lengthM, riseM: exactly(0), fittingsLossCoefficient: 0 }] };
}

function pipeByPieces(
  suctionPipe: NonNullable<SetUp['suctionPipe']>,
  lift: Uncertain,
  add: (source: Source) => Source,
): UncertainPipe {
  const { pieces, submergedLengthM, strainerLossCoefficient, hasFootValve } = suctionPipe;
  return {
    submergedLengthM: exactly(Math.max(LEAST_SUBMERGED_M, submergedLengthM)),
    strainerLossCoefficient,
    hasFootValve,
    pieces: pieces.map(({ boreM, lengthM, riseM, fittingLossCoefficient }, index) => {
      const name = `suction pipe, piece ${index + 1}`;
      const bore = add(setUpSource(`bore.${index}`, `${name}, bore`, boreM.standardUncertainty));
      const length = add(setUpSource(`length.${index}`, `${name}, length`, lengthM.standardUncertainty));
      // One tape measured the lift: every rise is off by the same share.
      const rise = combine(riseM, lift.value > 0 ? [{ input: lift, derivative: riseM / lift.value }] : []);
      return {
        boreM: own(boreM, bore),
        lengthM: own(lengthM, length),
        riseM: rise,
        fittingsLossCoefficient: fittingLossCoefficient,
      };
    }),
  };
}

/**
 * Suction side of a run as the fit takes it, with its errors as named sources. What the record does not state is assumed
 * and said.
 *
 * @param setUp - of the run record, dead volume above zero [SI]
 * @returns pipe, dead volume, sources, and what was assumed [m, m³]
 */
export function suctionSideOf(setUp: SetUp): SuctionSide {
  const sources: Source[] = [];
  const add = (source: Source): Source => {
    sources.push(source);
    return source;
  };
  const { staticLiftM, suctionPipe, suctionSideStandardUncertainty: stated, deadVolumeM3 } = setUp;
  const lift = own(
    staticLiftM,
    add(setUpSource('staticLift', 'static lift, by tape', staticLiftM.standardUncertainty)),
  );
  const pipe = suctionPipe === null ? straightPipe(setUp, lift, add) : pipeByPieces(suctionPipe, lift, add);
  const assumed: string[] = [];
  if (stated === null) {
    assumed.push(`dead volume to ${100 * ASSUMED_SUCTION_SIDE.deadVolumeRelativeStandardUncertainty} %`);
    if (suctionPipe === null) assumed.push('bore to 1 %', 'length to 10 mm');
  }
  if (suctionPipe === null) assumed.push('150 mm of pipe below the oil');
  return {
    pipe,
    deadVolume: {
      valueM3: deadVolumeM3,
      relativeStandardUncertainty:
        stated === null
          ? ASSUMED_SUCTION_SIDE.deadVolumeRelativeStandardUncertainty
          : stated.deadVolumeM3 / deadVolumeM3,
    },
    sources,
    assumed,
  };
}
