/**
 * A fault in an agreement: where it is (a path into the JSON), and what was expected there.
 */
export type JsonPath = readonly (string | number)[];

export interface AgreementProblem {
  readonly path: JsonPath;
  readonly message: string;
}

/** `$.price[2].above[0].perPoint`; a key that is not a plain word stands in quotes. */
export function printPath(path: JsonPath): string {
  return path.reduce<string>((printed, key) => {
    if (typeof key === 'number') return `${printed}[${key}]`;
    return /^[A-Za-z_$][\w$-]*$/.test(key) ? `${printed}.${key}` : `${printed}[${JSON.stringify(key)}]`;
  }, '$');
}
