/**
 * All questions of the caller's agreements: what waits for its own side first.
 */
import { figuresFor } from '../../documents/figures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { printUnits } from '../../domain/numbers/printing.ts';
import { otherSide, type Side } from '../../domain/retests/costs.ts';
import type { DecidedBecause } from '../../domain/retests/course.ts';
import { countsUnansweredFrom, daysLater } from '../../domain/retests/time-limits.ts';
import { becauseInWords, callsInWords, questionedName } from '../../domain/words/retest-course-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readHoldEnds, readHolds } from '../../store/rows/money/hold-rows.ts';
import { type FoundAgreement, isId, sideOf, withVersions } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { Refusal } from '../refusal.ts';
import { askableUnder } from './read-ask.ts';
import { CARRIED_OVER } from './record-of.ts';
import { courseOn, type RetestCase } from './retest-case.ts';
import { readCases } from './retest-frame.ts';

export interface RetestItem {
  readonly id: string;
  readonly agreementId: string;
  readonly agreement: string;
  readonly partner: string;
  readonly side: Side;
  readonly currency: string;
  /** "Starch of sample S1", "Net weight of load T1". */
  readonly what: string;
  readonly about: string;
  readonly first: string;
  readonly claimed: string;
  readonly isOurs: boolean;
  readonly askedOn: LocalDate;
  /** Held of invoices now. */
  readonly held: string;
  /** What waits for the reader's side, in a sentence; undefined where nothing does. */
  readonly forYou: string | undefined;
  /** What comes next, or how it ended. */
  readonly standing: string;
  /** By when somebody must act; undefined where it is over. */
  readonly dueOn: LocalDate | undefined;
  readonly isOver: boolean;
  /** The figure that counts, where it is over. */
  readonly value: string | undefined;
}

export interface RetestList {
  /** Open ones first: of those, what waits for the reader first; then the newest. */
  readonly items: readonly RetestItem[];
  /** The agreements in which something can be questioned. */
  readonly askable: readonly { readonly id: string; readonly number: string; readonly partner: string }[];
}

/** Refuses `not-allowed`, and `not-found` for an agreement of others. An adviser sees none. */
export async function readRetestList(
  context: Context,
  { locale, agreementId }: { readonly locale: string; readonly agreementId?: string | undefined },
): Promise<RetestList> {
  permit(context, 'read');
  const { show } = figuresFor(locale);
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const rows = (await readAgreements(tx)).filter((row) => sideOf(row, context.caller) !== 'adviser');
    const wanted = agreementId === undefined ? rows : rows.filter(({ id }) => id === agreementId);
    if (agreementId !== undefined && (!isId(agreementId) || wanted.length === 0)) {
      throw new Refusal('not-found', 'There is no such agreement.');
    }
    const items: RetestItem[] = [];
    const askable: RetestList['askable'][number][] = [];
    for (const row of wanted) {
      const found = await withVersions(tx, row);
      const side = sideOf(row, context.caller) === 'seller' ? 'seller' : 'buyer';
      const partner = side === 'seller' ? row.buyerName : row.sellerName;
      if (!row.isSealed && askableUnder(found).length > 0)
        askable.push({ id: row.id, number: row.number, partner });
      items.push(...(await itemsOf(tx, context, { found, side, partner, show })));
    }
    return { items: items.sort(byUrgency), askable };
  });
}

function byUrgency(a: RetestItem, b: RetestItem): number {
  const rank = ({ isOver, forYou }: RetestItem) => (isOver ? 2 : forYou === undefined ? 1 : 0);
  if (rank(a) !== rank(b)) return rank(a) - rank(b);
  const [one, other] = a.isOver ? [b.askedOn, a.askedOn] : [a.dueOn ?? '', b.dueOn ?? ''];
  return one < other ? -1 : Number(one > other);
}

interface ToList {
  readonly found: FoundAgreement;
  readonly side: Side;
  readonly partner: string;
  readonly show: (amount: string) => string;
}

async function itemsOf(
  tx: Transaction,
  context: Context,
  { found, side, partner, show }: ToList,
): Promise<readonly RetestItem[]> {
  const cases = await readCases(tx, found);
  if (cases.length === 0) return [];
  const of = moneyOfAgreement(found);
  const today = of.dayOf(stamp(context));
  const ended = new Set((await readHoldEnds(tx, [found.row.id])).map(({ fact }) => fact.hold));
  const holds = (await readHolds(tx, [found.row.id])).filter(({ id }) => !ended.has(id));
  return cases.map((asked): RetestItem => {
    const { row, about, ending } = asked;
    const held = holds
      .filter(({ fact }) => fact.retest === asked.id)
      .reduce((sum, { fact }) => sum + minorUnits(fact.amount, of.money), 0n);
    const name = questionedName(about);
    return {
      id: asked.id,
      agreementId: found.row.id,
      agreement: found.row.number,
      partner,
      side,
      currency: found.agreement.currency,
      what: row.sample === null ? `${name} of load ${row.ticket ?? ''}` : `${name} of sample ${row.sample}`,
      about,
      first: show(row.fact.first),
      claimed: show(row.fact.claimed),
      isOurs: asked.asker === side,
      askedOn: asked.askedOn,
      held: held === 0n ? '' : show(printUnits(held, of.money.decimals)),
      ...waitingOf(asked, { found, side, today }),
      isOver: ending !== undefined || found.row.isSealed,
      value: ending && show(ending.fact.value),
    };
  });
}

/** What comes next, and whether that is the side's own to do. */
export function waitingOf(
  asked: RetestCase,
  { found, side, today }: { readonly found: FoundAgreement; readonly side: Side; readonly today: LocalDate },
): Pick<RetestItem, 'forYou' | 'standing' | 'dueOn'> {
  const { ending, about, figures, proposals, rule } = asked;
  if (ending) {
    const because = ending.fact.because as DecidedBecause | 'both-confirmed';
    const words = {
      decided: becauseInWords(because, about === 'weight'),
      withdrawn: 'Withdrawn, as both sides confirmed.',
      agreed: 'Both sides agreed on it.',
    };
    const standing = words[ending.fact.ending as keyof typeof words];
    return { forYou: undefined, standing, dueOn: undefined };
  }
  if (found.row.isSealed) return { forYou: undefined, standing: CARRIED_OVER, dueOn: undefined };
  const course = courseOn(asked, today);
  if (course.kind === 'outcome') {
    return { forYou: undefined, standing: 'Its rule decides it now.', dueOn: undefined };
  }
  const own = side === 'seller' ? found.row.sellerId : found.row.buyerId;
  const unanswered = course.unanswered.filter((figure) => figures.includes(figure));
  const toAnswer = unanswered.find(({ row }) => row.fact.party !== own);
  const lastDay = (enteredOn: LocalDate) => daysLater(countsUnansweredFrom(enteredOn), -1);
  const proposed = proposals.find(({ answer, row }) => !answer && row.fact.party !== own);
  if (toAnswer && proposed) {
    const forYou =
      'A reported figure waits for your word, and the other side proposes to end the question. Compare the two.';
    return { forYou, standing: forYou, dueOn: lastDay(toAnswer.enteredOn) };
  }
  if (toAnswer) {
    const forYou = 'A reported figure waits for your word: confirm or contest it.';
    return { forYou, standing: forYou, dueOn: lastDay(toAnswer.enteredOn) };
  }
  if (proposed) {
    const forYou = 'The other side proposes to end it: confirm or refuse that.';
    return { forYou, standing: forYou, dueOn: course.dueOn };
  }
  const names = {
    seller: found.row.sellerName,
    buyer: found.row.buyerName,
    laboratory: null,
    referee: rule.referee,
  };
  const [first] = unanswered;
  if (first) {
    return {
      forYou: undefined,
      standing: 'A reported figure waits for the other side’s word.',
      dueOn: lastDay(first.enteredOn),
    };
  }
  const calls = callsInWords(course.tests, names).join(' ');
  const isOthers = course.tests.every(({ by }) => by === otherSide(side));
  // A test that anybody may report is first of all the asker's to see to.
  const isYours = course.tests.some(({ by }) => by === side) || (!isOthers && asked.asker === side);
  return { forYou: isYours ? calls : undefined, standing: calls, dueOn: course.dueOn };
}
