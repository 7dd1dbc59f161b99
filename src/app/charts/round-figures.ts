/**
 * Round figures for the rules of a chart.
 */

/** So many round figures between two, or fewer, in order. */
export function roundFigures(low: number, high: number, most = 4): number[] {
  const raw = (high - low) / most;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((times) => times * power >= raw) ?? 10) * power;
  const found: number[] = [];
  for (let count = Math.ceil(low / step); count * step <= high; count++) found.push(count * step);
  return found;
}
