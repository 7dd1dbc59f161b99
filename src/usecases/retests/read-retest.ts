/**
 * One question with all that belongs to it: what was asked and why, what is left to test, every figure, what comes next and
 * by when, what it may come to, or how it ended and what followed. The same data make its page and its paper.
 */
import { type Figures, figuresFor } from '../../documents/figures.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import type { Side } from '../../domain/retests/costs.ts';
import { doubtOf } from '../../domain/retests/doubt.ts';
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import { readParts } from '../../store/rows/sample-rows.ts';
import { readScaleVersions } from '../../store/rows/scale-rows.ts';
import { type Context, permit } from '../context.ts';
import { type DoubtView, doubtView, weightDoubtView } from './doubt-view.ts';
import { outlookOf, type Possible } from './outlook.ts';
import { isPercentage } from './read-ask.ts';
import { recordOf } from './record-of.ts';
import type { RetestCase } from './retest-case.ts';
import { retestFrame } from './retest-frame.ts';

export interface RetestView {
  readonly record: RetestRecord;
  readonly side: Side;
  readonly doubt: DoubtView | undefined;
  /** While it is open. */
  readonly outlook: readonly Possible[];
  /** Sealed parts that a test can open, by whose they are. */
  readonly parts: readonly { readonly id: string; readonly part: string; readonly seal: string }[];
  /** Scales that a weight can be questioned on. */
  readonly scales: readonly { readonly id: string; readonly label: string }[];
}

/** Refuses `not-allowed`, `not-found`, and `not-yours` for an adviser. */
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
    const outlook = asked.ending
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
      doubt: doubtAbout(asked, figures),
      outlook,
      parts: parts.map(({ id, part, seal }) => ({ id, part, seal })),
      scales: about === 'weight' ? await secondScales(tx) : [],
    };
  });
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
