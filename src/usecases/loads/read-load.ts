/**
 * One load with everything that is known of it: ticket, result, price and how it came about, and its history.
 */
import { figuresFor } from '../../documents/figures.ts';
import { describeLoad, describeTicket } from '../../documents/invoice/describe-load.ts';
import type { InvoiceLoad } from '../../documents/invoice/invoice-data.ts';
import { larger, ONE } from '../../domain/numbers/exact.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import { readAllowanceProposals } from '../../store/rows/allowance-rows.ts';
import { readCorrections } from '../../store/rows/correction-rows.ts';
import { readHistory } from '../../store/rows/list-rows.ts';
import { findLoad, readLoadVersions } from '../../store/rows/load-rows.ts';
import { readResultAnswers } from '../../store/rows/result-answer-rows.ts';
import { readResultVersions } from '../../store/rows/result-rows.ts';
import { findAgreement, isId, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { loadSetting, outcomesOf } from './load-views.ts';
import { type Standing, standingOf } from './read-load-list.ts';

export interface LoadView {
  readonly id: string;
  readonly agreementId: string;
  readonly agreementNumber: string;
  readonly seller: string;
  readonly buyer: string;
  /** Which side the caller's party is on; an adviser looks on. */
  readonly side: 'seller' | 'buyer' | 'adviser';
  readonly currency: string;
  readonly timeZone: string;
  readonly ticket: Omit<InvoiceLoad, 'references' | 'lines' | 'total'>;
  readonly sample: string | undefined;
  readonly standing: Standing;
  /** The price, where it is settled or could be: its lines with how they came about, and the quotes. */
  readonly price: Pick<InvoiceLoad, 'references' | 'lines' | 'total'> | undefined;
  /** Each line's amount as a plain decimal, for drawing the stair. */
  readonly amounts: readonly string[];
  readonly history: readonly HistoryView[];
  /** The ticket’s version; above 1 it was put right. */
  readonly version: number;
  /** A void ticket is no delivery. */
  readonly isVoid: boolean;
  /** Why it was put right last, or is void. */
  readonly reason: string | undefined;
  /** Where it went after the buyer refused it, where that was said. */
  readonly wentTo: string | null;
}

export interface HistoryView {
  /** On the wall clock of the agreement: "2026-09-14 21:40". */
  readonly at: string;
  /** What was recorded: a kind of fact or, for a decision, `accept` or `refuse`; of an allowance, `allowance` or `allowance-answer`. */
  readonly kind: string;
  /** Somebody of the caller's own party, or undefined. */
  readonly person: string | undefined;
  readonly sequence: number;
  readonly fingerprint: string;
}

/** Refuses `not-allowed`, and `not-found` for a load that is none of the caller's party's. */
export async function readLoad(
  context: Context,
  { loadId, locale }: { readonly loadId: string; readonly locale: string },
): Promise<LoadView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = isId(loadId) ? await findLoad(tx, loadId) : undefined;
    if (!row) throw new Refusal('not-found', 'There is no such load.');
    const found = await findAgreement(tx, row.agreementId);
    const [of] = await outcomesOf(tx, found, [row]);
    if (!of) throw new Error('A load that was found has no outcome');
    const { terms, outcome, settlements, elections, choices } = of;
    const figures = figuresFor(locale);
    const setting = loadSetting(terms, { heaviest: larger(ONE, outcome.load.netPounds), figures });
    const { money, calendar } = setting;
    const settled = outcome.status === 'settled' ? describeLoad(outcome, setting) : undefined;
    const sample = outcome.result?.sample ?? outcome.load.sample;
    const allowances = (await readAllowanceProposals(tx, found.row.id)).filter(
      ({ subjectId }) => subjectId === row.id,
    );
    const kinds = new Map([
      ...choices.map(({ id, choice }) => [id, choice] as const),
      ...allowances.map(({ id }) => [id, 'allowance'] as const),
      ...allowances.flatMap(({ answerId }) =>
        answerId === null ? [] : [[answerId, 'allowance-answer'] as const],
      ),
    ]);
    const versions = await readLoadVersions(tx, found.row.id, [row.id]);
    const samples = sample === undefined ? [] : [sample];
    const results = await readResultVersions(tx, found.row.id, samples);
    const answers = (await readResultAnswers(tx, found.row.id)).filter(({ resultId }) =>
      results.some(({ id }) => id === resultId),
    );
    const corrections = (await readCorrections(tx, found.row.id)).filter(({ subjectId }) =>
      [row, ...results].some(({ id }) => id === subjectId),
    );
    const subjects = [
      ...[row, ...versions, ...results, ...answers, ...elections, ...choices, ...settlements].map(
        ({ id }) => id,
      ),
      ...corrections.map(({ id }) => id),
      ...kinds.keys(),
      ...corrections.flatMap(({ answerId }) => answerId ?? []),
    ];
    const history = await readHistory(tx, found.row.id, subjects);
    return {
      id: row.id,
      agreementId: found.row.id,
      agreementNumber: found.row.number,
      seller: found.row.sellerName,
      buyer: found.row.buyerName,
      side: sideOf(found.row, context.caller),
      currency: money.currency,
      timeZone: terms.agreement.timeZone,
      ticket: describeTicket(outcome, setting),
      version: row.version,
      isVoid: row.isVoid,
      reason: versions.at(-1)?.reason,
      wentTo: choices.at(-1)?.wentTo ?? null,
      sample,
      standing: standingOf(outcome, settlements.length > 0, (total) => ({
        total: figures.show(printAmount(total, money)),
        currency: money.currency,
      })),
      price: settled && { references: settled.references, lines: settled.lines, total: settled.total },
      amounts:
        outcome.status === 'settled' ? outcome.lines.map(({ amount }) => printAmount(amount, money)) : [],
      history: history.map(({ sequence, kind, subjectId, postedAt, person, fingerprint }) => ({
        at: calendar.wallClockAt(Date.parse(postedAt)),
        kind: kinds.get(subjectId) ?? kind,
        person: person ?? undefined,
        sequence,
        fingerprint,
      })),
    };
  });
}
