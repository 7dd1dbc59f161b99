/**
 * What a party is told of, in words that name the other party and no figure: they also go by e-mail.
 */

export const NOTICE_KINDS = [
  'offer-came',
  'offer-countered',
  'offer-signed',
  'offer-withdrawn',
  'offer-declined',
  'lot-sold',
  'lot-withdrawn',
  'lot-shared',
  'share-accepted',
  'agreement-signed',
  'amendment-came',
  'amendment-signed',
  'closing-came',
  'agreement-closed',
  'advice-asked',
  'advice-note',
  'advice-draft',
  'advice-accepted',
  'advice-ended',
  'correction-came',
  'correction-answered',
  'result-contested',
  'close-came',
  'season-sealed',
  'difference-came',
  'difference-answered',
  'past-season-came',
  'past-season-answered',
  'balance-brought',
  'lists-shown',
  'lists-withdrawn',
  'retest-asked',
  'retest-figure-came',
  'retest-figure-answered',
  'retest-ending-came',
  'retest-ending-answered',
  'retest-decided',
  'retest-due',
  'allowance-came',
  'allowance-answered',
  'invoice-came',
  'payment-came',
  'payment-answered',
  'payment-returned',
  'amount-held',
  'amount-released',
  'set-off-came',
  'set-off-answered',
  'lien-came',
  'lien-ended',
  'account-changed',
] as const;
export type NoticeKind = (typeof NOTICE_KINDS)[number];

/** What a notice is about, and so which page it leads to. */
export type NoticeSubject =
  | 'offer'
  | 'lot'
  | 'agreement'
  | 'advice'
  | 'corrections'
  | 'samples'
  | 'close'
  | 'past-seasons'
  | 'lists'
  | 'retests'
  | 'loads'
  | 'money';
export const NOTICE_SUBJECTS: Readonly<Record<NoticeKind, NoticeSubject>> = {
  'offer-came': 'offer',
  'offer-countered': 'offer',
  'offer-signed': 'offer',
  'offer-withdrawn': 'offer',
  'offer-declined': 'offer',
  'lot-sold': 'offer',
  'lot-withdrawn': 'offer',
  'lot-shared': 'lot',
  'share-accepted': 'lot',
  'agreement-signed': 'agreement',
  'amendment-came': 'offer',
  'amendment-signed': 'agreement',
  'closing-came': 'offer',
  'agreement-closed': 'agreement',
  'advice-asked': 'advice',
  'advice-note': 'advice',
  'advice-draft': 'advice',
  'advice-accepted': 'advice',
  'advice-ended': 'advice',
  'correction-came': 'corrections',
  'correction-answered': 'corrections',
  'result-contested': 'samples',
  'close-came': 'close',
  'season-sealed': 'close',
  'difference-came': 'close',
  'difference-answered': 'close',
  'past-season-came': 'past-seasons',
  'past-season-answered': 'past-seasons',
  'balance-brought': 'past-seasons',
  'lists-shown': 'lists',
  'lists-withdrawn': 'lists',
  'retest-asked': 'retests',
  'retest-figure-came': 'retests',
  'retest-figure-answered': 'retests',
  'retest-ending-came': 'retests',
  'retest-ending-answered': 'retests',
  'retest-decided': 'retests',
  'retest-due': 'retests',
  'allowance-came': 'loads',
  'allowance-answered': 'loads',
  'invoice-came': 'money',
  'payment-came': 'money',
  'payment-answered': 'money',
  'payment-returned': 'money',
  'amount-held': 'money',
  'amount-released': 'money',
  'set-off-came': 'money',
  'set-off-answered': 'money',
  'lien-came': 'money',
  'lien-ended': 'money',
  'account-changed': 'money',
};

const PLACES: Readonly<Record<NoticeSubject, (id: string) => string>> = {
  offer: (id) => `/offers/${id}`,
  lot: (id) => `/lots/${id}`,
  agreement: (id) => `/agreements/${id}`,
  advice: (id) => `/advice/${id}`,
  // These are about something of an agreement, and have its id.
  corrections: (id) => `/corrections?agreement=${id}`,
  samples: (id) => `/agreements/${id}/samples`,
  close: (id) => `/agreements/${id}/season-close`,
  'past-seasons': (id) => `/agreements/${id}/past-seasons`,
  lists: (id) => `/agreements/${id}/own-list`,
  retests: (id) => `/retests?agreement=${id}`,
  loads: (id) => `/loads?agreement=${id}`,
  money: (id) => `/money?agreement=${id}`,
};

/** The page that a notice leads to: "/offers/0198…". */
export function noticePath(kind: NoticeKind, subjectId: string): string {
  return PLACES[NOTICE_SUBJECTS[kind]](subjectId);
}

/** The sentence of a notice; `from` is the other party's name. */
export function noticeInWords(kind: NoticeKind, from: string): string {
  switch (kind) {
    case 'offer-came':
      return `${from} made an offer on your lot.`;
    case 'offer-countered':
      return `${from} sent a new version of the offer.`;
    case 'offer-signed':
      return `${from} signed the offer. It becomes an agreement when your side signs too.`;
    case 'offer-withdrawn':
      return `${from} withdrew the offer.`;
    case 'offer-declined':
      return `${from} declined the offer.`;
    case 'lot-sold':
      return `The lot of ${from} went to another buyer. Your offer is over.`;
    case 'lot-withdrawn':
      return `${from} no longer offers the lot. Your offer is over.`;
    case 'lot-shared':
      return `${from} shows you a lot.`;
    case 'share-accepted':
      return `${from} has come by your link and sees the lot.`;
    case 'agreement-signed':
      return `You and ${from} have both signed: the agreement stands.`;
    case 'amendment-came':
      return `${from} proposes to amend the agreement.`;
    case 'amendment-signed':
      return `You and ${from} have both signed the amendment.`;
    case 'closing-came':
      return `${from} proposes to close the agreement early.`;
    case 'agreement-closed':
      return `You and ${from} have both signed: the agreement closes early.`;
    case 'advice-asked':
      return `${from} asks for your advice.`;
    case 'advice-note':
      return `${from} wrote a note.`;
    case 'advice-draft':
      return `${from} proposes terms to you.`;
    case 'advice-accepted':
      return `${from} has come by your link and advises you.`;
    case 'advice-ended':
      return `${from} ended the advice between you.`;
    case 'correction-came':
      return `${from} proposes to put right what was settled.`;
    case 'correction-answered':
      return `${from} answered the correction.`;
    case 'close-came':
      return `${from} has drawn up and signed the closing statement of a season.`;
    case 'season-sealed':
      return `You and ${from} have both signed: the season is sealed.`;
    case 'difference-came':
      return `${from} proposes to leave a difference of your books standing.`;
    case 'difference-answered':
      return `${from} answered a difference of your books.`;
    case 'past-season-came':
      return `${from} proposes money for a season that is sealed.`;
    case 'past-season-answered':
      return `${from} answered what you proposed for a sealed season.`;
    case 'balance-brought':
      return `${from} brought the balance of a sealed season forward into this agreement.`;
    case 'lists-shown':
      return `${from} agrees that you see each other’s lists, as long as both of you agree.`;
    case 'lists-withdrawn':
      return `${from} no longer agrees that you see each other’s lists: neither side sees them from now on.`;
    case 'retest-asked':
      return `${from} questions a weight or a result.`;
    case 'retest-figure-came':
      return `${from} reported a figure for a question. Confirm or contest it.`;
    case 'retest-figure-answered':
      return `${from} answered a figure that you reported.`;
    case 'retest-ending-came':
      return `${from} proposes to end a question.`;
    case 'retest-ending-answered':
      return `${from} answered how a question is to end.`;
    case 'retest-decided':
      return `A question between you and ${from} is decided.`;
    case 'retest-due':
      return `A question between you and ${from} waits, and its time is nearly over.`;
    case 'result-contested':
      return `${from} contests a result.`;
    case 'allowance-came':
      return `${from} proposes an allowance for a load.`;
    case 'allowance-answered':
      return `${from} answered the allowance.`;
    case 'invoice-came':
      return `${from} issued invoices or notes.`;
    case 'payment-came':
      return `${from} recorded a payment.`;
    case 'payment-answered':
      return `${from} answered a payment.`;
    case 'payment-returned':
      return `${from} says that the bank gave a payment back.`;
    case 'amount-held':
      return `${from} questions an amount and holds it back.`;
    case 'amount-released':
      return `${from} no longer holds an amount back.`;
    case 'set-off-came':
      return `${from} proposes to use money on account.`;
    case 'set-off-answered':
      return `${from} answered the use of money on account.`;
    case 'lien-came':
      return `${from} recorded a lender’s notice of a lien.`;
    case 'account-changed':
      return `${from} wants its money on another account. Call a number that you know before you pay there.`;
    case 'lien-ended':
      return `${from} recorded that a lien is over.`;
  }
}
