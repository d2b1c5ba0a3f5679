/**
 * Shaft speed of a motor that runs up evenly and then holds.
 *
 * @param speedRevPerS - running speed [rev/s]
 * @param rampS - time to reach it, zero or more [s]
 * @returns speed against time since the motor start [rev/s]
 *
 * @example rampedSpeed(10, 2)(1) // 5
 */
export function rampedSpeed(speedRevPerS: number, rampS: number): (elapsedS: number) => number {
  return (elapsedS) => (elapsedS >= rampS ? speedRevPerS : Math.max(0, (speedRevPerS * elapsedS) / rampS));
}

/**
 * Shaft speed as it was recorded, straight between the readings; the last one holds on.
 *
 * @param timesS - since the motor start, rising [n, s]
 * @param speedsRevPerS - speeds there [n, rev/s]
 * @returns speed against time since the motor start [rev/s]
 * @throws RangeError if there are no readings or not as many times as speeds
 */
export function recordedSpeed(
  timesS: readonly number[],
  speedsRevPerS: readonly number[],
): (elapsedS: number) => number {
  if (timesS.length === 0 || timesS.length !== speedsRevPerS.length) {
    throw new RangeError(`timesS: ${timesS.length} times for ${speedsRevPerS.length} speeds`);
  }
  const last = timesS.length - 1;
  // Asked for again and again at nearly the same time: the interval of the last answer is looked at first.
  let lastLow = 0;
  return (elapsedS) => {
    if (elapsedS >= (timesS[last] ?? 0)) return speedsRevPerS[last] ?? Number.NaN;
    let [low, high] = [lastLow, lastLow + 1];
    if (!((timesS[low] ?? 0) <= elapsedS && elapsedS < (timesS[high] ?? 0))) {
      [low, high] = [0, last];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if ((timesS[middle] ?? 0) <= elapsedS) low = middle;
        else high = middle;
      }
      lastLow = low;
    }
    const fromS = timesS[low] ?? 0;
    const share = Math.max(0, (elapsedS - fromS) / ((timesS[high] ?? fromS) - fromS || 1));
    return (speedsRevPerS[low] ?? 0) + share * ((speedsRevPerS[high] ?? 0) - (speedsRevPerS[low] ?? 0));
  };
}
