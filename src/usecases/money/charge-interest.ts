/**
 * Charges interest on what was or is late, by the agreed rate and day count, through a day. What was charged before is
 * taken off, so that charging twice charges once, and interest on a debt that was put right goes back.
 */
import { type LocalDate, parseLocalDate } from '../../domain/dates/local-date.ts';
import { dueOn } from '../../domain/money/due-date.ts';
import { type CreditedPart, heldChanges } from '../../domain/money/held-changes.ts';
import { type InterestRule, interestOn, type PrincipalChange } from '../../domain/money/interest.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { type DocumentLine, documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import type { StandingDocument } from '../../domain/money/standing.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import type { DocumentFact } from '../../journal/money-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { findDocument } from '../../store/rows/money/document-rows.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseOtherIssuer } from './issue-invoices.ts';
import { type MoneyFrame, moneyFrame } from './money-frame.ts';
import { allocatedOf, countedPayments } from './money-rows.ts';
import { namedDocument, type WrittenDocument, writeDocuments } from './write-documents.ts';

export interface InterestToCharge {
  readonly agreementId: string;
  /** The last day that counts, `YYYY-MM-DD`; today at the latest. */
  readonly through: string;
  readonly key?: string;
}

/**
 * Issues one interest invoice, or a credit note where too much was charged; null where there is nothing to charge. Refuses
 * `not-allowed`, `not-found`, `not-yours`, `bad-input` for a day to come, and `not-ready` where no interest is agreed.
 */
export async function chargeInterest(
  context: Context,
  { agreementId, through, key }: InterestToCharge,
): Promise<{ readonly document: WrittenDocument | null }> {
  permit(context, 'issue-invoice');
  const asked = { verb: 'charge-interest', subject: agreementId, key, input: { through } };
  return await doOnce(context, asked, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    refuseOtherIssuer(frame);
    if (!interestRule(frame)) {
      throw new Refusal('not-ready', 'No interest is agreed. Both sides can amend the agreement to say so.');
    }
    const day = parseLocalDate(through.trim());
    if (!day || day > frame.today) {
      throw badInput([{ column: 'through', message: `must be a day until today, ${frame.today}` }]);
    }
    const charged = await chargedSoFar(tx, frame);
    if (charged.through !== null && day < charged.through) {
      const message = `must not lie before ${charged.through}, through which interest was charged`;
      throw badInput([{ column: 'through', message }]);
    }
    const owed = interestOwed(frame, { through: day, charged });
    const payable = owed.reduce((sum, { units }) => sum + units, 0n);
    if (owed.length === 0 || payable === 0n) return { document: null };
    const [document = null] = await writeDocuments(tx, context, {
      frame,
      drafts: [
        {
          kind: payable < 0n ? 'credit-note' : 'interest',
          dueOn:
            payable < 0n ? frame.today : dueOn(frame.conditions.payment ?? {}, { issuedOn: frame.today }),
          period: {
            from:
              frame.standing.documents
                .map((document) => document.dueOn)
                .toSorted()
                .at(0) ?? day,
            to: day,
          },
          named: owed.map(({ named }) => named),
          correctsId: null,
          reason: `Simple interest through ${day}, less what was charged before.`,
          lines: owed.map(({ line }) => line),
          deductions: [],
          advances: [],
          loads: [],
          payable,
        },
      ],
    });
    await tellPartner(tx, context, { found: frame.found, kind: 'invoice-came' });
    return { document };
  });
}

/** The agreed rule, or undefined where none is. */
function interestRule({ conditions }: Pick<MoneyFrame, 'conditions'>): InterestRule | undefined {
  const agreed = conditions.payment?.interest;
  return agreed && { percentPerYear: decimal(agreed.percentPerYear), dayCount: agreed.dayCount };
}

export interface InterestOwed {
  readonly named: MoneyDocument['corrects'][number];
  readonly line: DocumentLine;
  /** Minor units, less what was charged before; below zero where too much was. */
  readonly units: bigint;
}

/** Interest on each late document through a day that has not been charged yet, in order of number. */
export function interestOwed(
  frame: Pick<MoneyFrame, 'conditions' | 'standing' | 'rows' | 'money' | 'dayOf' | 'print'>,
  { through, charged }: { readonly through: LocalDate; readonly charged: Charged },
): readonly InterestOwed[] {
  const rule = interestRule(frame);
  if (!rule) return [];
  return frame.standing.documents.flatMap((document): InterestOwed[] => {
    if (!BEARING.has(document.kind) || document.payable <= 0n) return [];
    const row = frame.rows.documents.find(({ id }) => id === document.id);
    if (!row) throw new Error('A document stands without its row');
    const { dueOn: due } = document;
    const interest = interestOn(
      { dueOn: due, changes: changesOf(frame, document), through },
      rule,
      frame.money,
    );
    const before = charged.byNumber.get(row.fact.serial) ?? 0n;
    const units = interest.amount - before;
    if (units === 0n) return [];
    const less = before === 0n ? '' : `, less ${frame.print(before)} charged before`;
    const named = namedDocument(row);
    return [
      {
        named,
        units,
        line: {
          load: null,
          label: `${documentName(named)}, due ${due}`,
          quantity: '1',
          unit: 'document',
          rate: frame.print(units),
          amount: frame.print(units),
          how: `${interest.how}${less}`,
        },
      },
    ];
  });
}

/** Interest itself bears none: it is simple. */
const BEARING = new Set(['invoice', 'advance', 'debit-note', 'fee']);

/** All that changed what is owed on a document, by local day. A credit note undoes from the first day. */
function changesOf(
  frame: Pick<MoneyFrame, 'rows' | 'money' | 'dayOf'>,
  document: StandingDocument,
): readonly PrincipalChange[] {
  const { rows, money, dayOf } = frame;
  const { id, issuedOn, payable } = document;
  const settledBy = (on: LocalDate, allocated: ReturnType<typeof allocatedOf>): PrincipalChange[] =>
    allocated
      .filter(({ documentId }) => documentId === id)
      .map(({ amount, discount }) => ({ on, change: -(amount + discount) }));
  const ended = new Map(rows.holdEnds.map(({ fact, recordedAt }) => [fact.hold, dayOf(recordedAt)]));
  return [
    { on: issuedOn, change: payable },
    ...rows.documents.flatMap(({ fact }) => settledBy(issuedOn, allocatedOf(fact.allocated, money))),
    ...countedPayments(rows).flatMap(({ payment, answer }) =>
      settledBy(payment.fact.paidOn as LocalDate, allocatedOf(answer.fact.allocated, money)),
    ),
    ...rows.setOffAnswers.flatMap(({ fact, recordedAt }) =>
      settledBy(dayOf(recordedAt), allocatedOf(fact.allocated, money)),
    ),
    ...heldChanges(
      rows.holds
        .filter(({ fact }) => fact.document === id)
        .map((hold) => ({
          load: hold.fact.load,
          amount: minorUnits(hold.fact.amount, money),
          from: dayOf(hold.recordedAt),
          to: ended.get(hold.id),
        })),
      rows.documents.flatMap(({ fact }) => creditedBy(fact, { id, money })),
    ),
  ];
}

/** What a credit note took off a document, load by load. */
function creditedBy(
  { allocated, issuedOn, loads }: DocumentFact,
  { id, money }: Pick<MoneyFrame, 'money'> & { readonly id: string },
): readonly CreditedPart[] {
  if (!allocated.some(({ document }) => document === id)) return [];
  return loads.flatMap(({ load, goods, deductions, advance }): CreditedPart[] => {
    const amount = minorUnits(deductions, money) + minorUnits(advance, money) - minorUnits(goods, money);
    return amount > 0n ? [{ load, amount, on: issuedOn as LocalDate }] : [];
  });
}

/** What interest was charged so far: for each document by its number, and through which day. */
export interface Charged {
  readonly byNumber: ReadonlyMap<string, bigint>;
  readonly through: string | null;
}

/** Interest invoices, less credit notes for interest. */
export async function chargedSoFar(
  tx: Transaction,
  { rows, money }: Pick<MoneyFrame, 'rows' | 'money'>,
): Promise<Charged> {
  const byNumber = new Map<string, bigint>();
  const days: string[] = [];
  const about = rows.documents.filter(
    ({ fact }) =>
      fact.kind === 'interest' ||
      (fact.kind === 'credit-note' && fact.loads.length === 0 && fact.seasonRule === undefined),
  );
  for (const { id } of about) {
    const found = await findDocument(tx, id);
    if (!found) throw new Error('A document that was listed is not there');
    const { corrects, lines, period } = JSON.parse(found.document) as MoneyDocument;
    if (period) days.push(period.to);
    for (const [index, { number }] of corrects.entries()) {
      const amount = minorUnits(lines[index]?.amount ?? '0', money);
      byNumber.set(number, (byNumber.get(number) ?? 0n) + amount);
    }
  }
  return { byNumber, through: days.toSorted().at(-1) ?? null };
}
