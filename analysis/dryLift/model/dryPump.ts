/** A dry pump as gas sees it. */
export type DryPump = {
  /** Derived capacity V_i: gas taken in a turn, at suction pressure [m³/rev]. */
  readonly capacityM3PerRev: number;
  /** C of laminar leak-back, G = C (p_d² − p²); G is pressure times volume in a second [m³/(s Pa)]. */
  readonly gapConstantM3PerSPerPa: number;
  /** The gap constant at the start over the one it tends to, and how fast: films that dry or wet; null: it is constant. */
  readonly gapChange: { readonly startRatio: number; readonly timeConstantS: number } | null;
  /** B of the quadratic entry loss in series with the gap, p_d² − p² = G/C + B G², where the gap has come to its end [s²/m⁶]; 0: none. */
  readonly entryLossS2PerM6: number;
  /** κ: share of the capacity that the mesh brings back, at delivery pressure [1]. */
  readonly carryOverShare: number;
  /** C_s of a shaft end that leaks from the atmosphere [m³/(s Pa)]; 0: sealed. */
  readonly shaftLeakM3PerSPerPa: number;
};

/** What a pump runs under while it is dry. */
export type DryRunning = {
  readonly pump: DryPump;
  /** Shaft speed against time since the motor start. */
  readonly speedRevPerS: (elapsedS: number) => number;
  readonly atmospherePa: number;
  /** Absolute, at the outlet; vented: that of the atmosphere. */
  readonly deliveryPressurePa: number;
  /** Of the gas before the gears: 1 isothermal, 1.4 without any heat from the walls. */
  readonly polytropicExponent: number;
};

/**
 * Refuses a pump and surroundings that cannot be.
 *
 * @param running - pump, pressures, exponent [SI]
 * @throws RangeError if a number is not finite or has the wrong sign
 */
export function requireRunning(running: DryRunning): void {
  const { pump, atmospherePa, deliveryPressurePa, polytropicExponent } = running;
  for (const [name, value] of [
    ['pump.capacityM3PerRev', pump.capacityM3PerRev],
    ['atmospherePa', atmospherePa],
    ['deliveryPressurePa', deliveryPressurePa],
    ['polytropicExponent', polytropicExponent],
    ['pump.gapChange.startRatio', pump.gapChange?.startRatio ?? 1],
    ['pump.gapChange.timeConstantS', pump.gapChange?.timeConstantS ?? 1],
  ] as const) {
    if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name}: ${value} is not a number above zero`);
  }
  for (const name of [
    'gapConstantM3PerSPerPa',
    'entryLossS2PerM6',
    'carryOverShare',
    'shaftLeakM3PerSPerPa',
  ] as const) {
    if (!(Number.isFinite(pump[name]) && pump[name] >= 0)) {
      throw new RangeError(`pump.${name}: ${pump[name]}, expected zero or more`);
    }
  }
}

/**
 * C over the one it tends to, at a time: 1 + (C₀/C_∞ − 1) exp(−t/τ). Oil that bridges a gap shuts a share of its breadth and
 * leaves the rest as it was, so C goes with the open breadth and B, by the square of the area, with its inverse square [1].
 */
function openShareAt({ gapChange }: DryPump, elapsedS: number): number {
  if (gapChange === null) return 1;
  return 1 + (gapChange.startRatio - 1) * Math.exp(-Math.max(0, elapsedS) / gapChange.timeConstantS);
}

/**
 * Gas that leaks through the clearances, G from p_d² − p² = G/C + B |G| G.
 *
 * The gap: isothermal laminar flow of a gas, p₁² − p² = G/C, with p₁ behind its entry. The entry: Δp = K ρ u²/2 with
 * u = G/(p_d A) and ρ = p_d/(R T), so that p_d² − p₁² ≈ 2 p_d Δp = K G²/(R T A²) = B G²: derived here for an entry loss that
 * is small beside p_d. The root of the sum is G = 2 D/[1/C + √(1/C² + 4 B D)], D = p_d² − p².
 *
 * @param gapConstantM3PerSPerPa - C, zero or more [m³/(s Pa)]
 * @param entryLossS2PerM6 - B, zero or more [s²/m⁶]
 * @param fromPa - absolute pressure that it leaks from [Pa]
 * @param toPa - absolute pressure that it leaks to [Pa]
 * @returns G, pressure times volume in a second; negative if `toPa` is the higher [Pa m³/s]
 *
 * Source: isothermal laminar gap flow, ṁ R T = b h³ (p₁² − p₂²)/(24 µ L); entry term derived here.
 */
export function gapLeak(
  gapConstantM3PerSPerPa: number,
  entryLossS2PerM6: number,
  fromPa: number,
  toPa: number,
): number {
  const drivePa2 = fromPa * fromPa - toPa * toPa;
  const laminar = gapConstantM3PerSPerPa * drivePa2;
  if (entryLossS2PerM6 === 0) return laminar;
  return (2 * laminar) / (1 + Math.sqrt(1 + 4 * entryLossS2PerM6 * gapConstantM3PerSPerPa * Math.abs(laminar)));
}

/**
 * What the gas before the gears gains in a second, as pressure times volume:
 * G = −p V_i n + leak-back(C, B) + κ V_i n (p_d − p) + C_s (p_atm² − p²).
 *
 * Carry-over: the mesh closes over a volume κ V_i at p_d and opens it to the suction, so that the spaces take in
 * p V_i (1 + κ) and bring back p_d κ V_i in a turn; what they take net is V_i, as it is of oil. Derived here.
 *
 * @param running - pump and surroundings [SI]
 * @param speedRevPerS - shaft speed [rev/s]
 * @param suctionPressurePa - absolute pressure before the gears [Pa]
 * @param elapsedS - since the motor start, for a gap that changes [s]
 * @returns G; negative while the pump draws [Pa m³/s]
 *
 * Source: mass balance of an isothermal gas; derived here.
 */
export function gasGain(
  running: DryRunning,
  speedRevPerS: number,
  suctionPressurePa: number,
  elapsedS: number,
): number {
  const { pump, atmospherePa, deliveryPressurePa } = running;
  const sweptM3PerS = pump.capacityM3PerRev * speedRevPerS;
  const openShare = openShareAt(pump, elapsedS);
  return (
    gapLeak(
      openShare * pump.gapConstantM3PerSPerPa,
      pump.entryLossS2PerM6 / openShare ** 2,
      deliveryPressurePa,
      suctionPressurePa,
    ) -
    suctionPressurePa * sweptM3PerS +
    pump.carryOverShare * sweptM3PerS * (deliveryPressurePa - suctionPressurePa) +
    pump.shaftLeakM3PerSPerPa * (atmospherePa * atmospherePa - suctionPressurePa * suctionPressurePa)
  );
}
