/** Speed follows its command with this time constant, never faster than the limit: invented [s], [rev/s²]. */
const LAG_S = 0.4;
const LIMIT_REV_PER_S2 = 40;
const AT_REST_REV_PER_S = 0.01;

/** Speed of the motor a step later [rev/s]. */
export function advanceMotor(speedRevPerS: number, commandRevPerS: number, stepS: number): number {
  const wanted = (commandRevPerS - speedRevPerS) / LAG_S;
  const next = speedRevPerS + stepS * Math.max(-LIMIT_REV_PER_S2, Math.min(LIMIT_REV_PER_S2, wanted));
  return commandRevPerS === 0 && next < AT_REST_REV_PER_S ? 0 : next;
}
