/**
 * Does what a line of a story tells, by one use case each. A line names things as people do (a check's number, a ticket,
 * an invoice), so what earlier lines brought about is remembered by these names.
 */
import { WrongUse } from '../src/cli/exit-status.ts';
import type { LocalDate } from '../src/domain/dates/local-date.ts';
import { documentName } from '../src/domain/money/money-document.ts';
import type { Context } from '../src/usecases/context.ts';
import { answerCorrection, proposeCorrection } from '../src/usecases/corrections/agree-correction.ts';
import { recordLoads } from '../src/usecases/loads/record-loads.ts';
import { answerSetOff, proposeSetOff } from '../src/usecases/money/agree-set-off.ts';
import { answerPayment } from '../src/usecases/money/answer-payment.ts';
import { chargeInterest } from '../src/usecases/money/charge-interest.ts';
import { giveAdvances } from '../src/usecases/money/give-advances.ts';
import { holdAmount, releaseHold } from '../src/usecases/money/hold-amount.ts';
import { issueInvoices } from '../src/usecases/money/issue-invoices.ts';
import { recordLien } from '../src/usecases/money/keep-liens.ts';
import { recordPayment } from '../src/usecases/money/record-payment.ts';
import { reversePayment } from '../src/usecases/money/reverse-payment.ts';
import type { WrittenDocument } from '../src/usecases/money/write-documents.ts';
import { recordQuotes } from '../src/usecases/prices/record-quotes.ts';
import type { InputRow } from '../src/usecases/read-input-rows.ts';
import { recordResults } from '../src/usecases/results/record-results.ts';
import { settleLoads } from '../src/usecases/settlements/settle-loads.ts';
import { doQuestionAct } from './question-acts.ts';
import type { StoryAct } from './story-lines.ts';
import { type ActAt, known, rowOf, type StoryMemory } from './story-memory.ts';

/** Throws `WrongUse` where a line names what is not there, and whatever its use case refuses. */
export async function doAct(context: Context, act: StoryAct, at: ActAt): Promise<void> {
  const { memory, day, key } = at;
  const { agreementId, ids } = memory;
  const asked = { agreementId, key };
  switch (act.act) {
    case 'record-loads': {
      const scale = act.scale === undefined ? undefined : known(memory, `scale ${act.scale}`);
      const weighed = scale === undefined ? {} : { gross_scale: scale, tare_scale: scale };
      const rows = newRows(memory, memory.loads, { dated: 'delivered_at', until: act.until });
      const loads = rows.map((row) => ({ ...row, ...weighed }));
      const recorded = await recordLoads(context, { ...asked, loads, confirmed: true });
      for (const { id, ticket } of recorded) ids.set(`ticket ${ticket}`, id);
      return;
    }
    case 'record-quotes': {
      const quotes = newRows(memory, memory.quotes, { dated: 'date', until: act.until });
      await recordQuotes(context, { ...asked, quotes, confirmed: true });
      return;
    }
    case 'enter-results': {
      const by = act.laboratory === undefined ? {} : { laboratory: act.laboratory };
      const results = act.samples.map((sample) => ({
        ...rowOf(memory.results, { column: 'sample', name: sample }),
        ...by,
      }));
      await recordResults(context, { ...asked, results, confirmed: true });
      return;
    }
    case 'settle':
      await settleLoads(context, asked);
      return;
    case 'give-advances':
      remember(memory, [(await giveAdvances(context, asked)).document]);
      return;
    case 'issue':
      remember(memory, (await issueInvoices(context, asked)).documents);
      return;
    case 'charge-interest':
      remember(memory, [(await chargeInterest(context, { ...asked, through: act.through })).document]);
      return;
    case 'pay': {
      const { amount, method, reference, isJoint, part, pastLien } = act;
      const payment = {
        amount,
        paid_on: day,
        method,
        reference,
        spread: part ? 'as-said' : 'oldest-first',
        made_out_to: isJoint ? 'jointly' : 'seller',
        past_lien: pastLien ?? '',
      };
      const parts = part ? [{ documentId: known(memory, part.document), amount: part.amount }] : [];
      const { paymentId } = await recordPayment(context, {
        ...asked,
        direction: 'paid',
        payment,
        parts,
        confirmed: true,
      });
      ids.set([method, reference].filter((word) => word !== '').join(' '), paymentId);
      return;
    }
    case 'confirm-payment':
      await answerPayment(context, { paymentId: known(memory, act.payment), answer: 'confirmed', key });
      return;
    case 'return-payment': {
      const { payment, reason } = act;
      await reversePayment(context, { paymentId: known(memory, payment), reversedOn: day, reason, key });
      return;
    }
    case 'propose-weights': {
      const { ticket, gross, tare, reason } = act;
      const figures = { ...rowOf(memory.loads, { column: 'ticket', name: ticket }), gross, tare };
      const subjectId = known(memory, `ticket ${ticket}`);
      const { correctionId } = await proposeCorrection(context, {
        ...asked,
        subject: 'load',
        subjectId,
        figures,
        reason,
        confirmed: true,
      });
      ids.set(`correction of ticket ${ticket}`, correctionId);
      return;
    }
    case 'confirm-weights': {
      const correctionId = known(memory, `correction of ticket ${act.ticket}`);
      await answerCorrection(context, { correctionId, answer: 'confirmed', key });
      return;
    }
    case 'hold': {
      const { ticket, document, figure, reason } = act;
      const [documentId, loadId] = [known(memory, document), known(memory, `ticket ${ticket}`)];
      const { holdId } = await holdAmount(context, { documentId, loadId, figure, reason, key });
      ids.set(`hold on ticket ${ticket}`, holdId);
      return;
    }
    case 'release':
      await releaseHold(context, { holdId: known(memory, `hold on ticket ${act.ticket}`), key });
      return;
    case 'record-lien': {
      const { lender, cropYear, county, conditions } = act;
      const debtor = memory.sellerName;
      const notice = { lender, debtor, crop_year: cropYear, county, conditions, received_on: day };
      await recordLien(context, { ...asked, notice });
      return;
    }
    case 'propose-set-off': {
      const { amount, reason } = act;
      ids.set('set-off', (await proposeSetOff(context, { ...asked, amount, reason })).setOffId);
      return;
    }
    case 'agree-set-off':
      await answerSetOff(context, { setOffId: known(memory, 'set-off'), answer: 'confirmed', key });
      return;
    default:
      await doQuestionAct(context, act, at);
  }
}

/** Rows of a day and before that did not come in with an earlier line. */
function newRows(
  { come }: StoryMemory,
  rows: readonly InputRow[],
  { dated, until }: { readonly dated: string; readonly until: LocalDate },
): readonly InputRow[] {
  const name = (row: InputRow) => JSON.stringify([row['ticket'], row['series'], row['date']]);
  // A ticket's own offset makes the date that is written on it the local one.
  const found = rows.filter((row) => (row[dated] ?? '').slice(0, 10) <= until && !come.has(name(row)));
  if (found.length === 0) throw new WrongUse(`Nothing new has come by ${until}.`);
  for (const row of found) come.add(name(row));
  return found;
}

function remember({ ids }: StoryMemory, documents: readonly (WrittenDocument | null)[]): void {
  for (const document of documents) {
    if (document) ids.set(documentName(document).toLowerCase(), document.id);
  }
}
