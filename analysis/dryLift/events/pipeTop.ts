import type { SetUp } from '../../records/runRecord.ts';

/** Where a suction pipe is highest, and what of it lies behind. */
export type PipeTop = {
  /** Highest place over the oil surface [m]. */
  readonly heightM: number;
  /** Of the piece that ends there [m²]. */
  readonly areaM2: number;
  /** From there to the flange [m³]. */
  readonly volumeBehindM3: number;
  /** From the oil surface to the flange [m³]. */
  readonly volumeM3: number;
  readonly lengthM: number;
  readonly leastBoreM: number;
  /** Mean of 1/d⁴ over the length, as laminar friction sees it [1/m⁴]. */
  readonly meanInverseFourthBore: number;
};

/** Rises of decimal fractions add up to a little more or less [m]. */
const SAME_HEIGHT_M = 1e-6;

const areaOf = (boreM: number): number => (Math.PI / 4) * boreM ** 2;

/**
 * The top of a suction pipe: oil that has come so far only runs on, and the suction no longer shows it rise.
 *
 * @param setUp - of the run record [SI]
 * @returns the top [m, m², m³]
 */
export function pipeTop(
  setUp: Pick<SetUp, 'staticLiftM' | 'suctionPipe' | 'suctionPipeBoreM' | 'suctionPipeLengthM'>,
): PipeTop {
  const { staticLiftM, suctionPipe, suctionPipeBoreM, suctionPipeLengthM } = setUp;
  const restM = Math.max(0, suctionPipeLengthM - staticLiftM.value);
  const pieces = suctionPipe?.pieces.map(({ boreM, lengthM, riseM }) => ({
    boreM: boreM.value,
    lengthM: lengthM.value,
    riseM,
  })) ?? [
    { boreM: suctionPipeBoreM, lengthM: staticLiftM.value, riseM: staticLiftM.value },
    { boreM: suctionPipeBoreM, lengthM: restM, riseM: 0 },
  ];
  let [heightM, volumeM3, lengthM, inverse] = [0, 0, 0, 0];
  let top = { heightM: 0, volumeM3: 0, areaM2: areaOf(pieces[0]?.boreM ?? suctionPipeBoreM) };
  for (const piece of pieces) {
    const areaM2 = areaOf(piece.boreM);
    heightM += piece.riseM;
    volumeM3 += areaM2 * piece.lengthM;
    lengthM += piece.lengthM;
    inverse += piece.lengthM / piece.boreM ** 4;
    if (heightM > top.heightM + SAME_HEIGHT_M) top = { heightM, volumeM3, areaM2 };
  }
  return {
    heightM: top.heightM,
    areaM2: top.areaM2,
    volumeBehindM3: volumeM3 - top.volumeM3,
    volumeM3,
    lengthM,
    leastBoreM: Math.min(...pieces.map(({ boreM }) => boreM)),
    meanInverseFourthBore: lengthM > 0 ? inverse / lengthM : 0,
  };
}

/**
 * What a pipe full of oil asks for besides its column: laminar friction of Hagen and Poiseuille, and the velocity head at the
 * narrowest bore twice over, for inlet and fittings.
 *
 * @param top - of the pipe [SI]
 * @param oil - viscosity and density [Pa s, kg/m³]
 * @param flowM3PerS - through it [m³/s]
 * @returns pressure [Pa]
 *
 * Source: Δp = 128 µ l q/(π d⁴); common practice for the velocity head, no source.
 */
export function pipeDropPa(
  top: PipeTop,
  oil: { readonly densityKgPerM3: number; readonly dynamicViscosityPaS: number },
  flowM3PerS: number,
): number {
  const laminarPa = (128 / Math.PI) * oil.dynamicViscosityPaS * top.lengthM * top.meanInverseFourthBore * flowM3PerS;
  return laminarPa + oil.densityKgPerM3 * (flowM3PerS / areaOf(top.leastBoreM)) ** 2;
}
