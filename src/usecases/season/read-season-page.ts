/**
 * A season for its page: by weeks, what was paid for what came, how the tests lie, the questions and how they ended, days
 * from delivery to money; against the same two parties' season before, where there is one.
 */

import { MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { compare, decimal } from '../../domain/numbers/exact.ts';
import { isSamePair } from '../../domain/parties/same-pair.ts';
import { lastSeason, type SeasonSpan } from '../../domain/season/last-season.ts';
import { questionedName } from '../../domain/words/retest-course-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type AgreementRow, readAgreements } from '../../store/rows/agreement-rows.ts';
import { readDeliverySpans } from '../../store/rows/progress-rows.ts';
import {
  agreementOf,
  type FoundAgreement,
  findAgreement,
  sideOf,
  withVersions,
} from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { waitingOf } from '../retests/read-retest-list.ts';
import { type ComparedFigure, compareSeasons } from './compare-seasons.ts';
import { gatherSeason, type Season } from './gather-season.ts';
import { printMoney, type SeasonPrinting, seasonPrinting } from './season-printing.ts';
import { type SeasonView, seasonView, type WeekView, weekViews } from './season-view.ts';

export interface SeasonQuestion {
  readonly id: string;
  /** "Starch of sample S1", "Net weight of load T1". */
  readonly what: string;
  readonly askedOn: LocalDate;
  readonly isOver: boolean;
  /** How it ended, or what comes next. */
  readonly standing: string;
  /** The figure that was questioned, and the one that counts in the end. */
  readonly first: string;
  readonly value: string | undefined;
  /** Whether these two are one, however many decimals they are written with. */
  readonly stays: boolean;
  /** Of both, as it stands behind the figure. */
  readonly unit: string;
  /** What the buyer owes more or less by it; undefined where nothing moved, or it is open. */
  readonly moved: { readonly amount: string; readonly to: 'seller' | 'buyer' } | undefined;
}

export interface SeasonQuestions {
  readonly asked: number;
  readonly open: number;
  readonly decided: number;
  readonly agreed: number;
  readonly withdrawn: number;
  /** Amounts; undefined where nothing moved that way. */
  readonly toSeller: string | undefined;
  readonly toBuyer: string | undefined;
  /** What the tests cost each side; undefined where they cost nothing. */
  readonly costs: { readonly seller: string; readonly buyer: string } | undefined;
  /** The first asked first. */
  readonly items: readonly SeasonQuestion[];
}

export interface LastSeason {
  readonly agreementId: string;
  readonly number: string;
  readonly first: LocalDate;
  readonly last: LocalDate;
  readonly currency: string;
  readonly weeks: readonly WeekView[];
  readonly compared: readonly ComparedFigure[];
}

export interface SeasonPage {
  readonly agreementId: string;
  readonly number: string;
  readonly seller: string;
  readonly buyer: string;
  readonly side: 'seller' | 'buyer' | 'adviser';
  readonly currency: string;
  readonly ton: 'short-ton' | 'tonne';
  readonly weight: 'lb' | 'kg';
  readonly today: LocalDate;
  readonly season: SeasonView;
  /** Undefined for an adviser. */
  readonly questions: SeasonQuestions | undefined;
  readonly last: LastSeason | undefined;
}

/** Refuses `not-allowed`, and `not-found` for an agreement of others. An adviser sees neither money nor questions. */
export async function readSeasonPage(
  context: Context,
  { agreementId, locale }: { readonly agreementId: string; readonly locale: string },
): Promise<SeasonPage> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const season = await gatherSeason(tx, context, found);
    const printing = seasonPrinting(found, locale);
    const { row } = found;
    const today = moneyOfAgreement(found).dayOf(stamp(context));
    return {
      agreementId: row.id,
      number: row.number,
      seller: row.sellerName,
      buyer: row.buyerName,
      side: sideOf(row, context.caller),
      currency: printing.money.currency,
      ton: printing.ton,
      weight: printing.weight,
      today,
      season: seasonView(season, printing),
      questions: season.questions && questionsView(season, { context, printing, today }),
      last: await readLast(tx, context, { season, printing, locale }),
    };
  });
}

async function readLast(
  tx: Transaction,
  context: Context,
  of: { readonly season: Season; readonly printing: SeasonPrinting; readonly locale: string },
): Promise<LastSeason | undefined> {
  const { season, printing, locale } = of;
  const before = await findLast(tx, season.found);
  if (!before) return undefined;
  const { row, first, last } = before;
  const found = await withVersions(tx, row);
  const earlier = await gatherSeason(tx, context, found);
  const { money } = seasonPrinting(found, locale);
  return {
    agreementId: row.id,
    number: row.number,
    first: first as LocalDate,
    last: last as LocalDate,
    currency: money.currency,
    weeks: weekViews(earlier, { ...printing, money }),
    compared: compareSeasons(season, earlier, { printing, beforeMoney: money }),
  };
}

interface KnownSpan extends SeasonSpan {
  readonly row: AgreementRow;
}

/** Among the agreements that the caller's party may see. */
async function findLast(tx: Transaction, { row, agreement }: FoundAgreement): Promise<KnownSpan | undefined> {
  const rows = (await readAgreements(tx)).filter((other) => isSamePair(other, row));
  if (rows.length < 2) return undefined;
  const spans = new Map(
    (
      await readDeliverySpans(
        tx,
        rows.map(({ id }) => id),
      )
    ).map((span) => [span.agreementId, span]),
  );
  const spanOf = (of: AgreementRow, feed: string): KnownSpan => ({
    id: of.id,
    sellerId: of.sellerId,
    buyerId: of.buyerId,
    feed,
    first: spans.get(of.id)?.first as LocalDate | undefined,
    last: spans.get(of.id)?.last as LocalDate | undefined,
    row: of,
  });
  return lastSeason(
    spanOf(row, agreement.feed),
    rows.map((other) => spanOf(other, agreementOf(other.document).feed)),
  );
}

function questionsView(
  { questions, found }: Season,
  of: { readonly context: Context; readonly printing: SeasonPrinting; readonly today: LocalDate },
): SeasonQuestions | undefined {
  if (!questions) return undefined;
  const { context, printing, today } = of;
  const { sums, cases } = questions;
  const some = (amount: bigint) => (amount === 0n ? undefined : printMoney(amount, printing));
  const side = sideOf(found.row, context.caller) === 'seller' ? 'seller' : 'buyer';
  return {
    asked: sums.asked,
    open: sums.open,
    ...sums.ended,
    toSeller: some(sums.toSeller),
    toBuyer: some(sums.toBuyer),
    costs:
      sums.sellerBears + sums.buyerBears === 0n
        ? undefined
        : {
            seller: printMoney(sums.sellerBears, printing),
            buyer: printMoney(sums.buyerBears, printing),
          },
    items: cases.map((asked): SeasonQuestion => {
      const { row, about, ending } = asked;
      const name = questionedName(about);
      return {
        id: asked.id,
        what: row.sample === null ? `${name} of load ${row.ticket ?? ''}` : `${name} of sample ${row.sample}`,
        askedOn: asked.askedOn,
        isOver: ending !== undefined,
        standing: waitingOf(asked, { found, side, today }).standing,
        first: printing.show(row.fact.first),
        value: ending && printing.show(ending.fact.value),
        stays: ending !== undefined && compare(decimal(ending.fact.value), decimal(row.fact.first)) === 0,
        unit: about === 'weight' ? (asked.weighed?.unit ?? '') : MEASURE_UNITS[about],
        moved: ending && movedBy(ending.fact.changed, printing),
      };
    }),
  };
}

/** "-40.00" is 40.00 to the buyer. */
function movedBy(changed: string, { show }: SeasonPrinting): SeasonQuestion['moved'] {
  if (!/[1-9]/.test(changed)) return undefined;
  return changed.startsWith('-')
    ? { amount: show(changed.slice(1)), to: 'buyer' }
    : { amount: show(changed), to: 'seller' };
}
