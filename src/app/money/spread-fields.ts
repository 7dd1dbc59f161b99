/**
 * How money is to be used for open documents, as fields of a form and as they are sent.
 */
import type { AgreementPayments } from '../../usecases/money/read-payments.ts';
import type { PartWanted } from '../../usecases/money/spread-wanted.ts';
import type { Field } from '../forms/field.ts';

const PART = 'part_';

export function spreadFields(
  { payable, currency }: Pick<AgreementPayments, 'payable' | 'currency'>,
  show: (amount: string) => string,
): readonly Field[] {
  if (payable.length < 2) return [];
  return [
    {
      kind: 'choice',
      name: 'spread',
      label: 'What it pays',
      value: 'oldest-first',
      options: [
        { value: 'oldest-first', label: 'the oldest first' },
        { value: 'in-proportion', label: 'a share of each' },
        { value: 'as-said', label: 'what I name below' },
      ],
    },
    {
      kind: 'more',
      summary: 'Name how much goes to which document',
      fields: payable.map(({ documentId, name, due }) => ({
        kind: 'text',
        name: PART + documentId,
        label: name,
        keys: 'decimal',
        unit: currency,
        hint: `${show(due)} is due. Leave it empty to pay nothing of it.`,
      })),
    },
  ];
}

/** The amounts that were typed for single documents. */
export function partsIn(sent: FormData): readonly PartWanted[] {
  return [...sent].flatMap(([name, value]): PartWanted[] => {
    if (!name.startsWith(PART) || typeof value !== 'string' || value.trim() === '') return [];
    return [{ documentId: name.slice(PART.length), amount: value.trim() }];
  });
}
