/**
 * How an agreement is called: by the seller's own running number where it was signed here, else by the number in its file.
 */
export interface NamedAgreement {
  readonly serial: number | null;
  /** The `id` in the file. */
  readonly number: string;
  readonly seller: string;
}

/** "Agreement 14 of Quillback Acres"; for one that was signed elsewhere "Agreement A-26-014". */
export function agreementName({ serial, number, seller }: NamedAgreement): string {
  return serial === null ? `Agreement ${number}` : `Agreement ${serial} of ${seller}`;
}
