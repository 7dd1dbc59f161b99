/**
 * What a payer tells its bank: whom to pay how much, and for which invoices.
 */

/** Where a payee wants its money; a payee without an account is paid by check. */
export interface PayeeAccount {
  /** The account's holder, as the bank knows it. */
  readonly holder: string;
  /** An IBAN, or any other account number. */
  readonly kind: 'iban' | 'other';
  readonly number: string;
  /** The bank: a BIC (ISO 9362), a routing number (ABA), or none where the IBAN says it. */
  readonly bankKind: 'bic' | 'aba' | null;
  readonly bank: string | null;
}

export interface InstructedPayment {
  /** Unique among the instruction's payments, at most 35 characters: what the payee sees of it. */
  readonly reference: string;
  readonly payee: string;
  /** Lenders that the payment is made out to as well. */
  readonly jointPayees: readonly string[];
  readonly account: PayeeAccount | null;
  /** A decimal string, above zero. */
  readonly amount: string;
  readonly currency: string;
  /** The invoices that it pays, and how much of each. */
  readonly invoices: readonly {
    readonly name: string;
    readonly number: string;
    readonly issuedOn: string;
    readonly amount: string;
  }[];
}

export interface PaymentInstruction {
  /** At most 35 characters. */
  readonly id: string;
  /** ISO 8601 with an offset. */
  readonly createdAt: string;
  /** The day on which the bank is to pay. */
  readonly payOn: string;
  readonly payer: string;
  readonly payerAccount: PayeeAccount | null;
  readonly payments: readonly InstructedPayment[];
}
