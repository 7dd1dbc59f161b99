/**
 * Notes about a season in words that both sides read alike.
 */

export interface NoteWords {
  readonly seller: string;
  readonly buyer: string;
  /** Writes an amount, above zero, with its currency. */
  readonly money: (amount: string) => string;
}

export interface NotedDifference {
  readonly ticket: string | null;
  /** Whose books differ, by name. */
  readonly by: string;
  /** How much more the buyer owes by them, a decimal string. */
  readonly amount: string;
}

/** "Load T-118: by the books of Quillback Acres, Tarn Hollow Dairy owes 80.00 USD more than the record says." */
export function differenceInWords(
  { ticket, by, amount }: NotedDifference,
  { buyer, money }: Omit<NoteWords, 'seller'>,
): string {
  const of = ticket === null ? 'The season as a whole' : `Load ${ticket}`;
  if (!/[1-9]/.test(amount)) return `${of}: the books of ${by} say something else, and no money differs.`;
  const [size, way] = amount.startsWith('-') ? [amount.slice(1), 'less'] : [amount, 'more'];
  const who = by === buyer ? 'it' : buyer;
  return `${of}: by the books of ${by}, ${who} owes ${money(size)} ${way} than the record says.`;
}

/** "Tarn Hollow Dairy owes 85.50 USD for load T-2." `amount` is above zero where the buyer owes it. */
export function pastSeasonInWords(
  { ticket, amount }: Pick<NotedDifference, 'ticket' | 'amount'>,
  { seller, buyer, money }: NoteWords,
): string {
  const of = ticket === null ? 'that season' : `load ${ticket} of that season`;
  return amount.startsWith('-')
    ? `${seller} owes ${money(amount.slice(1))} for ${of}.`
    : `${buyer} owes ${money(amount)} for ${of}.`;
}
