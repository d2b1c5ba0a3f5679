/** A straight stretch of suction pipe with the fittings in it. */
type PipeSegment = {
  readonly boreM: number;
  readonly lengthM: number;
  /** How much higher its upper end lies than its lower one: the length for a riser, zero for a level run [m]. */
  readonly riseM: number;
  readonly roughnessM: number;
  /** Σ K of its bends and valves, referred to the speed in this bore and spread evenly over its length [1]. */
  readonly fittingsLossCoefficient: number;
};

export type SuctionPipe = {
  /** The part below the oil surface, with strainer and foot valve: always full. Its rise does not count. */
  readonly submerged: Omit<PipeSegment, 'riseM'>;
  /** From the oil surface to the pump's flange, in the order in which the oil passes them. */
  readonly segments: readonly PipeSegment[];
  /** A foot valve lets no oil back. */
  readonly hasFootValve: boolean;
};

/** One segment with what the column needs of it, once and for all. */
export type SegmentTable = {
  readonly segment: Omit<PipeSegment, 'riseM'>;
  readonly areaM2: number;
  readonly volumeM3: number;
  /** Volume and height at its lower end. */
  readonly fromM3: number;
  readonly fromHeightM: number;
  readonly risePerM: number;
};

export type PipeTable = {
  readonly submerged: SegmentTable;
  readonly segments: readonly SegmentTable[];
  readonly volumeM3: number;
  /** Height of the pump's flange over the oil surface. */
  readonly inletHeightM: number;
  /** Height of the highest point that the oil must pass. */
  readonly staticLiftM: number;
};

function requireSegment(segment: Omit<PipeSegment, 'riseM'>, where: string): void {
  for (const name of ['boreM', 'lengthM'] as const) {
    if (!(Number.isFinite(segment[name]) && segment[name] > 0)) {
      throw new RangeError(`${where}.${name}: ${segment[name]} is not a number above zero`);
    }
  }
  for (const name of ['roughnessM', 'fittingsLossCoefficient'] as const) {
    if (!(Number.isFinite(segment[name]) && segment[name] >= 0)) {
      throw new RangeError(`${where}.${name}: ${segment[name]}, expected zero or more`);
    }
  }
}

/**
 * Volume and height along a suction pipe: two functions, since a level run has volume and no height.
 *
 * @param pipe - from foot to flange [SI]
 * @returns the same with areas, and with volume and height at each segment's start [SI]
 * @throws RangeError if a length or bore is not above zero, or a segment rises more than it is long
 */
export function pipeTable(pipe: SuctionPipe): PipeTable {
  requireSegment(pipe.submerged, 'pipe.submerged');
  if (pipe.segments.length === 0) throw new RangeError('pipe.segments: none between oil surface and pump');
  const tableOf = (
    segment: Omit<PipeSegment, 'riseM'>,
    fromM3: number,
    fromHeightM: number,
    risePerM: number,
  ): SegmentTable => {
    const areaM2 = (Math.PI / 4) * segment.boreM ** 2;
    return { segment, areaM2, volumeM3: areaM2 * segment.lengthM, fromM3, fromHeightM, risePerM };
  };
  const segments: SegmentTable[] = [];
  let [volumeM3, heightM, staticLiftM] = [0, 0, 0];
  for (const [index, segment] of pipe.segments.entries()) {
    requireSegment(segment, `pipe.segments[${index}]`);
    if (!(Math.abs(segment.riseM) <= segment.lengthM)) {
      throw new RangeError(`pipe.segments[${index}].riseM: ${segment.riseM}, but its length is ${segment.lengthM}`);
    }
    const table = tableOf(segment, volumeM3, heightM, segment.riseM / segment.lengthM);
    segments.push(table);
    volumeM3 += table.volumeM3;
    heightM += segment.riseM;
    staticLiftM = Math.max(staticLiftM, heightM);
  }
  return { submerged: tableOf(pipe.submerged, 0, 0, 1), segments, volumeM3, inletHeightM: heightM, staticLiftM };
}

/** Length of a segment that is wetted when so much oil stands in the pipe [m]. */
export function wettedLengthM(table: SegmentTable, filledM3: number): number {
  return Math.max(0, Math.min(table.volumeM3, filledM3 - table.fromM3)) / table.areaM2;
}

/** The segment in which the oil's surface stands; the last one when the pipe is full. */
export function surfaceSegment(pipe: PipeTable, filledM3: number): SegmentTable {
  for (const table of pipe.segments) if (filledM3 < table.fromM3 + table.volumeM3) return table;
  return pipe.segments[pipe.segments.length - 1] ?? pipe.submerged;
}

/**
 * Height of the column's surface over the oil surface when so much oil stands in the pipe; below zero it falls in the first
 * segment's own way on.
 *
 * @param pipe - from {@link pipeTable} [SI]
 * @param filledM3 - oil above the oil surface; more than the pipe's volume: the flange's height [m³]
 * @returns height [m]
 */
export function columnHeight(pipe: PipeTable, filledM3: number): number {
  if (filledM3 >= pipe.volumeM3) return pipe.inletHeightM;
  const table = surfaceSegment(pipe, filledM3);
  return table.fromHeightM + (table.risePerM * (filledM3 - table.fromM3)) / table.areaM2;
}
