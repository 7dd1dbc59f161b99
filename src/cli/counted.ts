/**
 * A count with its noun: "1 load", "2 loads".
 */
export function counted(count: number, one: string, many: string = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
