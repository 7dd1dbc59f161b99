/**
 * A party's lists beside the other side's: who agrees to that, the form to agree or no longer to, and how the two compare.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../../documents/figures.ts';
import type { ListRow, ListSide } from '../../../../domain/matching/list-row.ts';
import type { PaymentListRow } from '../../../../domain/matching/payments/payment-list-row.ts';
import {
  type ListNames,
  listOfParty,
  opened,
  outcomeInWords,
} from '../../../../domain/words/matching-words.ts';
import {
  directionInWords,
  type PaymentNames,
  paymentInWords,
  paymentOutcomeInWords,
} from '../../../../domain/words/payment-matching-words.ts';
import type {
  BothLists,
  ListsComparedView,
  ListWord,
  LoadLists,
  PaymentLists,
} from '../../../../usecases/season-close/read-lists-compared.ts';
import { STANDINGS } from '../../../../usecases/season-close/read-matching.ts';
import { PAYMENT_STANDINGS } from '../../../../usecases/season-close/read-payment-matching.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { Compared, localDay, sidesOf } from './compared.tsx';
import { sayConsent } from './list-actions.ts';
import { rowWords } from './matching-part.tsx';

export interface ListsComparedPartProps {
  readonly agreementId: string;
  readonly compared: ListsComparedView;
  readonly figures: Figures;
  readonly timeZone: string;
  /** Whether the reader may speak for its side. */
  readonly mayAgree: boolean;
}

export function ListsComparedPart({
  agreementId,
  compared,
  figures,
  timeZone,
  mayAgree,
}: ListsComparedPartProps) {
  const { partner, ourWord, theirWord, lists } = compared;
  return (
    <section aria-labelledby="theirs">
      <h2 id="theirs">Your list and theirs</h2>
      <p className="hint">
        You and {partner} can lay your own lists side by side, while both of you agree to it. Nobody else sees
        them, the record plays no part in it, and neither list is taken to be right.
      </p>
      <dl className="facts sums">
        <div>
          <dt>Your side</dt>
          <dd>{wordInWords(ourWord, timeZone)}</dd>
        </div>
        <div>
          <dt>{partner}</dt>
          <dd>{wordInWords(theirWord, timeZone)}</dd>
        </div>
      </dl>
      {mayAgree ? <Consent agreementId={agreementId} compared={compared} /> : null}
      {lists ? (
        <>
          <LoadsCompared lists={lists.loads} compared={compared} figures={figures} timeZone={timeZone} />
          <PaymentsCompared
            lists={lists.payments}
            compared={compared}
            figures={figures}
            timeZone={timeZone}
          />
        </>
      ) : null}
    </section>
  );
}

function wordInWords(word: ListWord | undefined, timeZone: string): string {
  if (!word) return 'has not agreed';
  const day = localDay(word.recordedAt, timeZone);
  return word.word === 'given' ? `agrees, since ${day}` : `no longer agrees, since ${day}`;
}

/** Whose word to show each other's lists stands. */
type Given = 'both' | 'ours' | 'none';

const BUTTONS: Readonly<Record<Given, string>> = {
  both: 'No longer show our lists',
  ours: 'Take our word back',
  none: 'Agree to show each other our lists',
};

function consentInWords(given: Given, { partner, theirWord }: ListsComparedView): string {
  switch (given) {
    case 'both':
      return `You can take this back at any time. From then on neither side sees the other’s lists; what ${partner} has read by then, it has read.`;
    case 'ours':
      return theirWord
        ? `${partner} has taken its word back, so neither side sees the other’s lists now. Your side’s word stands: if ${partner} agrees again, each sees the other’s. You can take it back at any time.`
        : `Neither side sees the other’s lists yet. Your side’s word stands: once ${partner} agrees too, each sees the other’s. You can take it back at any time.`;
    case 'none':
      return `If you agree, and ${partner} does too, ${partner} sees the newest list of loads and the newest list of payments that your office has brought or brings later, every row and the name of the file, and you see theirs.`;
  }
}

interface ConsentProps {
  readonly agreementId: string;
  readonly compared: ListsComparedView;
}

function Consent({ agreementId, compared }: ConsentProps) {
  const isTheirs = compared.theirWord?.word === 'given';
  const given = compared.ourWord?.word !== 'given' ? 'none' : isTheirs ? 'both' : 'ours';
  return (
    <>
      <p className="hint">{consentInWords(given, compared)}</p>
      <RecordForm
        action={sayConsent}
        submit={BUTTONS[given]}
        requestKey={randomUUID()}
        scope="consent"
        quiet={given !== 'none' || !isTheirs}
        fields={[
          { kind: 'hidden', name: 'agreement', value: agreementId },
          { kind: 'hidden', name: 'word', value: given === 'none' ? 'given' : 'withdrawn' },
        ]}
      />
    </>
  );
}

interface KindProps<Lists> {
  readonly lists: Lists;
  readonly compared: ListsComparedView;
  readonly figures: Figures;
  readonly timeZone: string;
}

/** What both lists are called. */
function namesOf(partner: string) {
  const theirs = listOfParty(partner);
  const load = (side: ListSide, id: string) => `line ${id} of ${side === 'mine' ? 'your list' : theirs}`;
  return { mine: 'your list', record: theirs, load };
}

function LoadsCompared({ lists, compared: { partner }, figures, timeZone }: KindProps<LoadLists>) {
  const { matching } = lists;
  if (!matching) return <Missing lists={lists} partner={partner} noun="loads" />;
  const names: ListNames = { ...namesOf(partner), currency: matching.currency, show: figures.show };
  return (
    <Compared
      matching={matching}
      of="Loads"
      standings={STANDINGS}
      names={names}
      ids={{ heading: 'lists-loads', standing: 'lists-load' }}
      sizes={sizesOf(lists, { noun: 'loads', names, figures, timeZone })}
      item={(outcome) => {
        const { own, recorded } = sidesOf<ListRow>(outcome);
        return (
          <Item
            own={own ? `Line ${own.id} of your list: ${rowWords(own, figures)}` : undefined}
            other={
              recorded
                ? `${opened(names.load('record', recorded.id))}: ${rowWords(recorded, figures)}`
                : undefined
            }
            sentences={outcomeInWords(outcome, names)}
          />
        );
      }}
      figures={figures}
      timeZone={timeZone}
    />
  );
}

function PaymentsCompared({ lists, compared, figures, timeZone }: KindProps<PaymentLists>) {
  const { partner, side } = compared;
  const { matching } = lists;
  if (!matching) return <Missing lists={lists} partner={partner} noun="payments" />;
  const otherSide = side === 'seller' ? 'buyer' : 'seller';
  const names: PaymentNames = {
    ...namesOf(partner),
    currency: matching.currency,
    show: figures.show,
    side,
    otherSide,
  };
  // Each office's row in its own words: what one received, the other paid.
  const words = (row: PaymentListRow, of: PaymentNames['side']) =>
    `${row.paidOn}, ${paymentInWords(row, figures.show)} ${names.currency} ${directionInWords(row.amount, of)}`;
  return (
    <Compared
      matching={matching}
      of="Payments"
      standings={PAYMENT_STANDINGS}
      names={names}
      ids={{ heading: 'lists-payments', standing: 'lists-payment' }}
      sizes={sizesOf(lists, { noun: 'payments', names, figures, timeZone })}
      item={(outcome) => {
        const { own, recorded } = sidesOf<PaymentListRow>(outcome);
        return (
          <Item
            own={own ? `Line ${own.id} of your list: ${words(own, side)}` : undefined}
            other={
              recorded
                ? `${opened(names.load('record', recorded.id))}: ${words(recorded, otherSide)}`
                : undefined
            }
            sentences={paymentOutcomeInWords(outcome, names)}
          />
        );
      }}
      figures={figures}
      timeZone={timeZone}
    />
  );
}

interface ItemProps {
  readonly own: string | undefined;
  readonly other: string | undefined;
  readonly sentences: readonly string[];
}

function Item({ own, other, sentences }: ItemProps) {
  return (
    <>
      <h5>
        {own}
        {own && other ? <br /> : null}
        {other}
      </h5>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}

interface MissingProps {
  readonly lists: Pick<LoadLists, 'ours' | 'theirs'>;
  readonly partner: string;
  readonly noun: 'loads' | 'payments';
}

function Missing({ lists: { ours, theirs }, partner, noun }: MissingProps) {
  const who = ours ? partner : theirs ? 'Your office' : `Neither your office nor ${partner}`;
  return (
    <p>
      {who} has brought {ours || theirs ? 'no' : 'a'} list of {noun} yet.
    </p>
  );
}

interface Sizes {
  readonly noun: string;
  readonly names: Pick<ListNames, 'record'>;
  readonly figures: Figures;
  readonly timeZone: string;
}

function sizesOf<Counts, Ends>(
  { matching, theirs }: BothLists<Counts, Ends>,
  { noun, names, figures: { show }, timeZone }: Sizes,
): string {
  if (!matching || !theirs) return '';
  const { ownRows, recordRows } = matching;
  const day = localDay(theirs.broughtAt, timeZone);
  return `${show(String(ownRows))} ${noun}. ${opened(names.record)} (${theirs.fileName}, brought on ${day}) has ${show(String(recordRows))}.`;
}
