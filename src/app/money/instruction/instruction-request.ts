/**
 * What a payment instruction is asked for, in the address.
 */
import type { InstructionWanted } from '../../../usecases/money/instruct-payment.ts';

/** Reads an address; days that it leaves out are today. */
export function instructionWanted(
  text: (name: string) => string | undefined,
  today: string | undefined,
): InstructionWanted {
  return {
    agreementId: text('agreement') || undefined,
    dueBy: text('due_by') || (today ?? ''),
    payOn: text('pay_on') || (today ?? ''),
  };
}
