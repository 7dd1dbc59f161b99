/**
 * What each refusal means, for whoever writes a program that meets it: a title that never changes, and what to do. The
 * sentence about the request at hand is the refusal's own.
 */
import { REFUSAL_CODES, REFUSAL_OUTCOMES, type RefusalCode } from '../../usecases/refusal.ts';

export type ProblemCode = RefusalCode | 'defect';

export interface ProblemWords {
  readonly title: string;
  /** What it means and what to do. */
  readonly meaning: string;
}

export const PROBLEM_WORDS: Readonly<Record<ProblemCode, ProblemWords>> = {
  'not-signed-in': {
    title: 'Nobody is signed in',
    meaning: 'The request names nobody. Send a token as “Authorization: Bearer hl_…”.',
  },
  'wrong-sign-in': {
    title: 'The sign-in or token is wrong',
    meaning:
      'The token never was one, was revoked, or was made by somebody who has left the party. An owner makes a new one under “People and sign-ins”.',
  },
  'too-many-tries': {
    title: 'Too many wrong tries',
    meaning: 'Stop for a quarter of an hour, then try again with the right token.',
  },
  'not-allowed': {
    title: 'Not allowed',
    meaning:
      'The token lacks the scope, or the role does not go that far. Ask an owner of the party. A page of another site may not send requests at all.',
  },
  'bad-input': {
    title: 'Something in the request is wrong',
    meaning:
      'Nothing was recorded. “problems” names every fault: the row counted from 0, the column, and what it must be. Put all of them right and send the whole request again.',
  },
  'key-reused': {
    title: 'The request key was used for something else',
    meaning: 'An Idempotency-Key belongs to one request. Use a new one for a new request.',
  },
  'not-found': {
    title: 'There is no such thing',
    meaning: 'It does not exist, or it is not your party’s: the two are told apart to nobody.',
  },
  'first-run-over': {
    title: 'The record has its first person',
    meaning: 'The first run is over. Ask for an invitation.',
  },
  'invitation-void': {
    title: 'The invitation is over',
    meaning: 'It was used, or is too old. Ask for a new one.',
  },
  'agreement-taken': {
    title: 'The agreement’s number is taken',
    meaning:
      'The two parties have an agreement of that number with other terms. Give this one its own number.',
  },
  'lot-closed': { title: 'The lot is closed', meaning: 'It is no longer offered, or not to you.' },
  'offer-open': { title: 'An offer is open already', meaning: 'End or answer the open one first.' },
  'advice-over': {
    title: 'The advice has ended',
    meaning: 'Whoever asked for it, or the adviser, ended it.',
  },
  'offer-over': { title: 'The offer is over', meaning: 'It was signed, withdrawn or declined.' },
  'offer-moved': {
    title: 'The offer has a newer version',
    meaning: 'Read the newest version before you answer.',
  },
  'offer-lapsed': { title: 'The offer has lapsed', meaning: 'Its last day is over. Make a new one.' },
  'agreement-closed': {
    title: 'The agreement was closed early',
    meaning: 'Both sides signed that no load is delivered after a day, and this one is later.',
  },
  'delivered-already': {
    title: 'Loads were delivered already',
    meaning: 'A change from that day on would reach loads that are recorded. Choose a later day.',
  },
  'changed-meanwhile': {
    title: 'It was changed meanwhile',
    meaning:
      'Somebody put it right after you read it. Read it again, then send the change with the new version.',
  },
  'correction-open': {
    title: 'A correction of it is open',
    meaning: 'One correction of a thing is open at a time. Answer or withdraw that one first.',
  },
  'correction-over': {
    title: 'The correction was answered',
    meaning: 'It was confirmed, refused or withdrawn before. Read what came of it.',
  },
  'season-closed': {
    title: 'The season is sealed',
    meaning:
      'Both sides have signed it shut, and its journal takes no further entry. What comes later belongs to another agreement.',
  },
  'retest-open': {
    title: 'It is questioned',
    meaning: 'A question about this figure is open. It ends by its rule, or by what both sides confirm.',
  },
  'retest-over': {
    title: 'The question has ended',
    meaning: 'It was decided, withdrawn or agreed on before. Read what came of it.',
  },
  'too-late': {
    title: 'The time to ask is over',
    meaning:
      'The agreement says within how many days a figure can be questioned. A correction takes both sides.',
  },
  'ended-already': {
    title: 'It was answered or has ended already',
    meaning: 'Somebody answered, withdrew or ended it meanwhile. Read it again to see how it ended.',
  },
  'ticket-taken': {
    title: 'The ticket number is taken',
    meaning:
      'A ticket of that number is recorded with other figures, or is void: its number stays taken. The same ticket with the same figures may be sent again and adds nothing.',
  },
  'result-taken': {
    title: 'The sample has a result',
    meaning: 'Another result of that sample is recorded. Put it right by a correction, with the reason.',
  },
  'quote-taken': {
    title: 'The date has a price',
    meaning:
      'Another price of that series and date is recorded. Put it right by a correction, with the reason.',
  },
  'election-taken': {
    title: 'The pricing date was named',
    meaning: 'A date that was named stands.',
  },
  'not-yours': {
    title: 'It is the other side’s to do',
    meaning:
      'Only the buyer accepts or refuses loads, only the seller names pricing dates, and whoever proposes a correction does not confirm it.',
  },
  'already-settled': {
    title: 'Loads have settled from it',
    meaning: 'Propose a correction: once the other side confirms it, those loads are settled anew.',
  },
  'partner-there': { title: 'The other side is here', meaning: 'It invites its own people.' },
  'last-owner': { title: 'It is the last owner', meaning: 'Make somebody else an owner first.' },
  unusual: {
    title: 'A figure is hardly right',
    meaning:
      'Nothing was recorded. Have a person look at the figures that are named; if they are right, send the same again with “confirmed” true.',
  },
  'not-ready': {
    title: 'It is not ready',
    meaning: 'The load waits for something that is named, or there is nothing to settle anew.',
  },
  defect: {
    title: 'Something is wrong on our side',
    meaning:
      'The program failed. Its log has more under the reference that is named. Send the request again with the same Idempotency-Key: nothing is recorded twice.',
  },
};

export function isProblemCode(text: string): text is ProblemCode {
  return text === 'defect' || REFUSAL_CODES.some((code) => code === text);
}

export function problemStatus(code: ProblemCode): number {
  return code === 'defect' ? 500 : REFUSAL_OUTCOMES[code].http;
}

/** Where a code is explained. */
export function problemAddress(code: ProblemCode): string {
  return `/api/problems/${code}`;
}
