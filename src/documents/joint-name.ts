/**
 * To whom a payment is made out that a lender with a lien must sign for as well.
 */

/** "Quillback Acres and Sallowfen Savings Bank, jointly"; with several lenders commas between the first; alone the payee. */
export function jointName(payee: string, jointPayees: readonly string[]): string {
  const last = jointPayees.at(-1);
  if (last === undefined) return payee;
  return `${[payee, ...jointPayees.slice(0, -1)].join(', ')} and ${last}, jointly`;
}
