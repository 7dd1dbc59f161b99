/**
 * What the record of a payment asks for.
 */
import { PAYMENT_METHODS, type PaymentMethod } from '../../../domain/money/payment-row.ts';
import type { AgreementPayments } from '../../../usecases/money/read-payments.ts';
import type { Field } from '../../forms/field.ts';
import { nameList } from '../name-list.ts';
import { spreadFields } from '../spread-fields.ts';

const METHOD_WORDS: Readonly<Record<PaymentMethod, string>> = {
  check: 'check',
  transfer: 'bank transfer',
  cash: 'cash',
  other: 'another way',
};

/** For what the buyer paid, told by either side. */
export function paymentFields(money: AgreementPayments, show: (amount: string) => string): readonly Field[] {
  const direction = money.side === 'buyer' ? 'paid' : 'received';
  return [
    ...aboutFields(money, direction),
    ...amountFields(
      money,
      Number(money.payable.length) > 0 ? `${show(money.due)} is due in all.` : undefined,
    ),
    ...payeeFields(money),
    ...spreadFields(money, show),
  ];
}

/** For what the seller paid back, told by either side. */
export function backFields(money: AgreementPayments): readonly Field[] {
  return [...aboutFields(money, money.side === 'seller' ? 'paid' : 'received'), ...amountFields(money)];
}

function aboutFields(
  { agreementId, partner }: AgreementPayments,
  direction: 'paid' | 'received',
): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'partner', value: partner },
    { kind: 'hidden', name: 'direction', value: direction },
  ];
}

function amountFields({ currency, today }: AgreementPayments, hint?: string): readonly Field[] {
  return [
    {
      kind: 'text',
      name: 'amount',
      label: 'Amount',
      keys: 'decimal',
      unit: currency,
      large: true,
      ...(hint === undefined ? {} : { hint }),
    },
    {
      kind: 'row',
      fields: [
        { kind: 'date', name: 'paid_on', label: 'Paid on', value: today },
        {
          kind: 'list',
          name: 'method',
          label: 'By',
          options: PAYMENT_METHODS.map((method) => ({ value: method, label: METHOD_WORDS[method] })),
        },
      ],
    },
    {
      kind: 'text',
      name: 'reference',
      label: 'Number of the check, or what the bank calls the transfer',
      optional: true,
    },
  ];
}

/** Where a lender is to be paid as well. The style sheet hides the reason while the lender is named. */
function payeeFields({ jointPayees, seller }: AgreementPayments): readonly Field[] {
  if (jointPayees.length === 0) return [];
  return [
    {
      kind: 'choice',
      name: 'made_out_to',
      label: 'Made out to',
      value: 'jointly',
      options: [
        { value: 'jointly', label: `${nameList([seller, ...jointPayees])}, jointly` },
        { value: 'seller', label: `${seller} alone` },
      ],
    },
    {
      kind: 'text',
      name: 'past_lien',
      label: `If ${seller} alone: why ${nameList(jointPayees)} is not named`,
      hint: 'It stays on record, and both sides read it.',
    },
  ];
}
