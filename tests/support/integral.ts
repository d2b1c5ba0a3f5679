/** Simpson's rule with a thousand strips. */
export function integral(f: (x: number) => number, from: number, to: number): number {
  const strips = 1000;
  const step = (to - from) / strips;
  let sum = f(from) + f(to);
  for (let index = 1; index < strips; index += 1) sum += (index % 2 === 1 ? 4 : 2) * f(from + index * step);
  return (sum * step) / 3;
}
