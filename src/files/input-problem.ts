/**
 * A fault in an input file: which file, where in it, and what was expected there.
 */
export interface InputProblem {
  readonly file: string;
  /** 1 for the first. */
  readonly line?: number;
  /** A CSV column's name, or the character column of a JSON text. */
  readonly column?: string | number;
  /** The JSON path of an agreement's fault. */
  readonly path?: string;
  readonly message: string;
}

/** `loads.csv, line 14, column gross: must be …` */
export function printProblem({ file, line, column, path, message }: InputProblem): string {
  const place = [
    file,
    ...(path === undefined ? [] : [path]),
    ...(line === undefined ? [] : [`line ${line}`]),
    ...(column === undefined ? [] : [`column ${column}`]),
  ];
  return `${place.join(', ')}: ${message}`;
}
