const two = (count: number): string => String(count).padStart(2, '0');

/** Seconds as a clock shows them: 192 is 00:03:12. */
export function clockFace(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** A moment by the clock on the wall: 2026-11-25 13:40. */
export function wallTime(utc: string): string {
  const at = new Date(utc);
  const day = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${day} ${two(at.getHours())}:${two(at.getMinutes())}`;
}
