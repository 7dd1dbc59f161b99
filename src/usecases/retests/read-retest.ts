/**
 * One question with all that belongs to it: what was asked and why, what is left to test, every figure, what comes next and
 * by when, what it may come to, or how it ended and what followed. The same data make its page and its paper.
 */
import { type Figures, figuresFor } from '../../documents/figures.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { type Side, shareCosts } from '../../domain/retests/costs.ts';
import { figureStanding } from '../../domain/retests/course.ts';
import { doubtOf } from '../../domain/retests/doubt.ts';
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readParts } from '../../store/rows/sample-rows.ts';
import { readScaleVersions } from '../../store/rows/scale-rows.ts';
import { type Context, permit } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { type DoubtView, doubtView, weightDoubtView } from './doubt-view.ts';
import { costOf, decidedEnding, isSameFigure } from './end-retest.ts';
import { outlookOf, type Possible } from './outlook.ts';
import { tryOutFigure } from './put-figure.ts';
import { isPercentage } from './read-ask.ts';
import { recordOf } from './record-of.ts';
import { courseOn, type RetestCase } from './retest-case.ts';
import { type RetestFrame, retestFrame } from './retest-frame.ts';

/** Confirmed, a figure decides the question, or only takes it on. */
export type IfConfirmed =
  | { readonly is: 'goes-on' }
  | {
      readonly is: 'decides';
      readonly value: string;
      /** What the buyer owes more by it, a decimal string; undefined where it could not stand, with the reason. */
      readonly changed: string | undefined;
      readonly obstacle: string | undefined;
      readonly bearer: Side | 'split';
    };

export interface IfEnded {
  readonly changed: string | undefined;
  readonly obstacle: string | undefined;
  readonly sellerBears: string;
  readonly buyerBears: string;
}

export interface RetestView {
  readonly record: RetestRecord;
  readonly side: Side;
  /** The method’s word in the agreement file: "referee-stands". */
  readonly method: string;
  readonly doubt: DoubtView | undefined;
  /** Its season is sealed: it can be read and no more. */
  readonly isSealed: boolean;
  /** While it is open. */
  readonly outlook: readonly Possible[];
  /** What confirming each figure would do that waits for the reader's word, by its id. */
  readonly ifConfirmed: ReadonlyMap<string, IfConfirmed>;
  /** What each open proposal of an ending would do: what the buyer owes more by it, a decimal string, and what each side bears. */
  readonly ifEnded: ReadonlyMap<string, IfEnded>;
  /** Sealed parts that a test can open, by whose they are. */
  readonly parts: readonly { readonly id: string; readonly part: string; readonly seal: string }[];
  /** Scales that a weight can be questioned on. */
  readonly scales: readonly { readonly id: string; readonly label: string }[];
}

/** Refuses `not-allowed`, and `not-found` also for an adviser: questions are between the two parties. */
export async function readRetest(
  context: Context,
  { retestId, locale }: { readonly retestId: string; readonly locale: string },
): Promise<RetestView> {
  permit(context, 'read');
  const figures = figuresFor(locale);
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const frame = await retestFrame(tx, context, { table: 'retest', id: retestId });
    const { asked, found, side } = frame;
    const { about, row, rule, asker } = asked;
    const { first, claimed } = row.fact;
    const isSealed = found.row.isSealed;
    const outlook =
      asked.ending || isSealed
        ? []
        : await outlookOf(tx, context, {
            found,
            question: row,
            rule,
            asker,
            first,
            claimed,
            isPercent: isPercentage(about),
          });
    const parts = (await readParts(tx, found.row.id)).filter(({ sample }) => sample === row.sample);
    return {
      record: await recordOf(tx, context, frame),
      side,
      method: rule.method.method,
      doubt: doubtAbout(asked, figures),
      outlook,
      isSealed,
      ifEnded: isSealed ? new Map() : await proposedOutlook(tx, context, frame),
      ifConfirmed: isSealed ? new Map() : await confirmedOutlook(tx, context, frame),
      parts: parts.map(({ id, part, seal }) => ({ id, part, seal })),
      scales: about === 'weight' ? await secondScales(tx) : [],
    };
  });
}

async function confirmedOutlook(
  tx: Transaction,
  context: Context,
  { asked, found, today, side }: RetestFrame,
): Promise<ReadonlyMap<string, IfConfirmed>> {
  const own = side === 'seller' ? found.row.sellerId : found.row.buyerId;
  const { money } = moneyOfAgreement(found);
  const outlook = new Map<string, IfConfirmed>();
  for (const figure of asked.ending ? [] : asked.figures) {
    const { id, fact } = figure.row;
    if (fact.party === own || figureStanding(figure, today) !== 'unanswered') continue;
    const confirmed: RetestCase = {
      ...asked,
      figures: asked.figures.map((one) =>
        one === figure ? { ...one, answer: { word: 'confirm', on: today } } : one,
      ),
    };
    const course = courseOn(confirmed, today);
    if (course.kind === 'calls-for') {
      outlook.set(id, { is: 'goes-on' });
      continue;
    }
    const { value, weighing, bearer } = decidedEnding(confirmed, course);
    const tried = isSameFigure(value, asked.row.fact.first)
      ? { seen: 0n }
      : await tryOutFigure(tx, context, {
          ...{ found, question: asked.row, value, weighing, reason: 'tried out' },
          look: ({ changed }) => changed,
        });
    const changed = 'seen' in tried ? tried.seen : undefined;
    outlook.set(id, {
      is: 'decides',
      value,
      changed: changed === undefined ? undefined : printAmount(changed, money),
      obstacle: 'obstacle' in tried ? tried.obstacle : undefined,
      bearer: bearer(changed ?? 0n),
    });
  }
  return outlook;
}

async function proposedOutlook(
  tx: Transaction,
  context: Context,
  { asked, found }: RetestFrame,
): Promise<ReadonlyMap<string, IfEnded>> {
  const { money } = moneyOfAgreement(found);
  const outlook = new Map<string, IfEnded>();
  for (const { row, answer } of asked.ending ? [] : asked.proposals) {
    if (answer) continue;
    const { value, bearer } = row.fact;
    const costs = shareCosts(costOf(asked, { money }), bearer as Side | 'split');
    const tried =
      value === null || isSameFigure(value, asked.row.fact.first)
        ? { seen: 0n }
        : await tryOutFigure(tx, context, {
            ...{ found, question: asked.row, value, reason: 'tried out' },
            look: ({ changed }) => changed,
          });
    outlook.set(row.id, {
      changed: 'seen' in tried ? printAmount(tried.seen, money) : undefined,
      obstacle: 'obstacle' in tried ? tried.obstacle : undefined,
      sellerBears: printAmount(costs.seller, money),
      buyerBears: printAmount(costs.buyer, money),
    });
  }
  return outlook;
}

async function secondScales(tx: Parameters<typeof readScaleVersions>[0]) {
  const newest = new Map((await readScaleVersions(tx)).map((scale) => [scale.scaleId, scale]));
  return [...newest.values()].flatMap(({ scaleId, name, place, division, unit, isLegalForTrade }) =>
    isLegalForTrade ? [{ id: scaleId, label: `${name}, ${place} (${division} ${unit})` }] : [],
  );
}

function doubtAbout(
  { about, rule: { method }, weighed, row }: RetestCase,
  figures: Figures,
): DoubtView | undefined {
  const { first, claimed } = row.fact;
  if (about !== 'weight') {
    return doubtView(
      doubtOf(method, { measure: about, first: decimal(first), claimed: decimal(claimed) }),
      figures,
    );
  }
  if (method.method !== 'second-scale' || !weighed) return undefined;
  return weightDoubtView(method, { weighed, claimed }, figures);
}
