/**
 * Issuing: invoices of periods that are over or of all, advances, and interest.
 */
'use server';

import { figuresFor } from '../../../documents/figures.ts';
import { documentName } from '../../../domain/money/money-document.ts';
import { chargeInterest } from '../../../usecases/money/charge-interest.ts';
import { giveAdvances } from '../../../usecases/money/give-advances.ts';
import { issueInvoices } from '../../../usecases/money/issue-invoices.ts';
import type { WrittenDocument } from '../../../usecases/money/write-documents.ts';
import type { FormState } from '../../forms/form-state.ts';
import { type Done, keyOf, submit, textOf } from '../../forms/submit.ts';
import { currentContext, readerLocale } from '../../server/current-caller.ts';
import { tellingAddress } from '../../server/told.ts';

export async function issueOver(before: FormState, sent: FormData): Promise<FormState> {
  return await issue(before, sent, false);
}

export async function issueAll(before: FormState, sent: FormData): Promise<FormState> {
  return await issue(before, sent, true);
}

async function issue(before: FormState, sent: FormData, includeOpenPeriods: boolean): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { documents } = await issueInvoices(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      includeOpenPeriods,
      ...keyOf(sent),
    });
    return await issued(sent, documents, 'Nothing was ready, so nothing was issued.');
  });
}

export async function advance(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { document } = await giveAdvances(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      ...keyOf(sent),
    });
    return await issued(
      sent,
      document ? [document] : [],
      'No load waits without an advance, so nothing was issued.',
    );
  });
}

export async function charge(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { document } = await chargeInterest(await currentContext(), {
      agreementId: textOf(sent, 'agreement'),
      through: textOf(sent, 'through'),
      ...keyOf(sent),
    });
    return await issued(
      sent,
      document ? [document] : [],
      'No interest has come up that was not charged before, so nothing was issued.',
    );
  });
}

/** Many documents of a season would not fit into an address. */
const MOST_LINKED = 20;

async function issued(sent: FormData, documents: readonly WrittenDocument[], nothing: string): Promise<Done> {
  const agreement = textOf(sent, 'agreement');
  const { show } = figuresFor(await readerLocale());
  const [only] = documents;
  const told =
    documents.length === 0
      ? nothing
      : documents.length === 1 && only
        ? `${documentName(only)} is issued: ${show(only.payable)}. It cannot be changed any more; a note puts it right.`
        : `${documents.length} documents are issued. They cannot be changed any more; notes put them right.`;
  const ids = documents.slice(0, MOST_LINKED).map(({ id }) => id);
  const parts = { agreement, issued: ids.length === 0 ? undefined : ids.join('.') };
  return { to: await tellingAddress('/money/issue', parts, told) };
}
