/**
 * Two seasons of one pair, the first sealed and taken up by the second, in which every table and column about that has
 * something in it: for the tests that look at each.
 */
import { holdAmount } from '../../src/usecases/money/hold-amount.ts';
import { answerSeasonNote } from '../../src/usecases/season-close/answer-season-note.ts';
import { bringForward } from '../../src/usecases/season-close/bring-forward.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { noteDifference, proposePastSeason } from '../../src/usecases/season-close/put-season-note.ts';
import type { TestRecord } from '../store/test-record.ts';
import { type MoneyWorld, moneyWorld } from './money-world.ts';

export async function everySeasonRow(
  record: TestRecord,
): Promise<{ readonly past: MoneyWorld; readonly next: MoneyWorld }> {
  const past = await moneyWorld(record);
  const { seller, buyer } = past;
  await past.deliver({ T1: '10', T2: '12' }, '2026-11-20');
  const { documents } = await past.invoice();
  await holdAmount(buyer, { documentId: documents[0]?.id ?? '', figure: '2100', reason: 'Wet' });
  const drawn = await proposeClose(seller, {
    agreementId: past.agreementId,
    carriesOver: true,
    name: 'Wren Alder',
  });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
  const next = await moneyWorld(record, { parties: { seller: seller.caller, buyer: buyer.caller } });
  const { agreementId } = next;
  const of = { agreementId, ofAgreementId: past.agreementId };
  await bringForward(seller, of);
  const later = { ...of, ticket: 'T2', amount: '-85.50', reason: 'The second scale' };
  const { noteId: agreed } = await proposePastSeason(buyer, later);
  await answerSeasonNote(seller, { noteId: agreed, answer: 'confirmed' });
  const [loadId = ''] = await next.deliver({ T3: '10' }, '2026-11-24');
  const { noteId: refused } = await noteDifference(buyer, {
    agreementId,
    loadId,
    amount: '12',
    reason: 'Tare',
  });
  await answerSeasonNote(seller, { noteId: refused, answer: 'refused', reason: 'It was right' });
  return { past, next };
}
