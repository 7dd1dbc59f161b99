/**
 * What is asked for a note about a season. The way of an amount is a choice in words: a sign would be overlooked.
 */
import type { Field } from '../forms/field.ts';

export interface NoteParties {
  readonly agreementId: string;
  readonly seller: string;
  readonly buyer: string;
  /** The other side's name. */
  readonly partner: string;
  readonly currency: string;
}

/** As a page about an agreement knows them. */
export function notePartiesOf(agreement: {
  readonly id: string;
  readonly seller: string;
  readonly buyer: string;
  readonly side: 'seller' | 'buyer' | 'adviser';
  readonly currency: string;
}): NoteParties {
  const { id, seller, buyer, side, currency } = agreement;
  return { agreementId: id, seller, buyer, partner: side === 'seller' ? buyer : seller, currency };
}

/** The page that the form stands on, to come back to. */
export type NotePlace = 'season-close' | 'past-seasons' | 'own-list';

export function aboutFields({ agreementId, partner }: NoteParties, place: NotePlace): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'partner', value: partner },
    { kind: 'hidden', name: 'place', value: place },
  ];
}

/** Of a difference; `amount` and `way` are filled in where they are known. */
export function differenceFields(
  { buyer, currency }: NoteParties,
  known: { readonly amount?: string; readonly way?: 'more' | 'less' | 'none'; readonly reason?: string } = {},
): readonly Field[] {
  return [
    {
      kind: 'choice',
      name: 'way',
      label: 'By your own books',
      ...(known.way === undefined ? {} : { value: known.way }),
      options: [
        { value: 'more', label: `${buyer} owes more than the record says` },
        { value: 'less', label: `${buyer} owes less than the record says` },
        { value: 'none', label: 'No money differs' },
      ],
    },
    {
      kind: 'text',
      name: 'amount',
      label: 'By how much',
      keys: 'decimal',
      unit: currency,
      optional: true,
      ...(known.amount === undefined ? {} : { value: known.amount }),
    },
    {
      kind: 'text',
      name: 'reason',
      label: 'What differs',
      hint: 'Both sides read it, and it stands on both closing statements.',
      ...(known.reason === undefined ? {} : { value: known.reason }),
    },
  ];
}

export function pastSeasonFields({ seller, buyer, currency }: NoteParties): readonly Field[] {
  return [
    {
      kind: 'text',
      name: 'ticket',
      label: 'Load of that season, by its ticket',
      hint: 'Leave it empty where it is about the season as a whole.',
      optional: true,
    },
    {
      kind: 'choice',
      name: 'way',
      label: 'Who owes it',
      options: [
        { value: 'more', label: `${buyer} owes it to ${seller}` },
        { value: 'less', label: `${seller} owes it to ${buyer}` },
      ],
    },
    { kind: 'text', name: 'amount', label: 'Amount', keys: 'decimal', unit: currency },
    {
      kind: 'text',
      name: 'reason',
      label: 'What it is for',
      hint: 'Both sides read it, and it is printed on the note.',
    },
  ];
}
