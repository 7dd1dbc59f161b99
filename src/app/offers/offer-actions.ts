/**
 * What the two sides of an offer do: make it, answer it with another version, end it, sign it.
 */
'use server';

import { counterOffer } from '../../usecases/offers/counter-offer.ts';
import { endOffer } from '../../usecases/offers/end-offer.ts';
import { makeOffer } from '../../usecases/offers/make-offer.ts';
import { readOffer } from '../../usecases/offers/read-offer.ts';
import { signOffer } from '../../usecases/offers/sign-offer.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { Refusal } from '../../usecases/refusal.ts';
import type { FormState } from '../forms/form-state.ts';
import { keyOf, submit, textOf } from '../forms/submit.ts';
import { clientOrigin } from '../server/client-address.ts';
import { currentContext } from '../server/current-caller.ts';
import { refusalOf } from '../server/refused.ts';
import { tellingAddress } from '../server/told.ts';
import { sendingIn, termsIn } from './terms-in.ts';

export async function offerOnLot(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const { offerId } = await makeOffer(await currentContext(), {
      lotId: textOf(sent, 'lot'),
      document: termsIn(sent),
      ...sendingIn(sent),
      ...keyOf(sent),
    });
    const told = 'Your offer is sent. It binds nobody until both sides have signed one version of it.';
    return { to: await tellingAddress(`/offers/${offerId}`, {}, told) };
  });
}

/** A new version; of a closing only its last day and reason can change. */
export async function counter(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const offerId = textOf(sent, 'offer');
    const effectiveFrom = textOf(sent, 'effectiveFrom');
    const isClosing = sent.has('lastDelivery');
    const document = isClosing ? await closingIn(sent) : termsIn(sent);
    const { version } = await toldByField(() =>
      counterOffer(context, {
        offerId,
        baseVersion: Number(textOf(sent, 'version')),
        document,
        ...(effectiveFrom === '' ? {} : { effectiveFrom }),
        ...sendingIn(sent),
        ...keyOf(sent),
      }),
    );
    return { to: await tellingAddress(`/offers/${offerId}`, {}, `Version ${version} is sent.`) };
  });
}

async function closingIn(sent: FormData): Promise<Readonly<Record<string, unknown>>> {
  const offerId = textOf(sent, 'offer');
  const { newest } = await readOffer(await currentContext(), { offerId });
  const { reason: _, ...kept } = newest.document;
  const reason = textOf(sent, 'reason');
  return { ...kept, lastDelivery: textOf(sent, 'lastDelivery'), ...(reason === '' ? {} : { reason }) };
}

/** A closing has no builder: its faults belong to fields of their own. */
async function toldByField<Answer>(work: () => Promise<Answer>): Promise<Answer> {
  try {
    return await work();
  } catch (error) {
    const refused = refusalOf(error);
    if (!refused) throw error;
    const problems = refused.problems.map(({ column, ...problem }) => {
      const field = column === '$.lastDelivery' || column === '$.reason' ? column.slice(2) : column;
      return field === undefined ? problem : { ...problem, column: field };
    });
    throw new Refusal(refused.code, refused.message, problems);
  }
}

export async function end(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const offerId = textOf(sent, 'offer');
    if (textOf(sent, 'sure.yes') !== 'yes') {
      throw badInput([{ column: 'sure', message: 'must be ticked: what has ended stays so' }]);
    }
    const { ending } = await endOffer(await currentContext(), { offerId, ...keyOf(sent) });
    const told =
      ending === 'withdrawn'
        ? 'It is withdrawn, and the other side is told.'
        : 'It is declined, and the other side is told.';
    return { to: await tellingAddress(`/offers/${offerId}`, {}, told) };
  });
}

export async function sign(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const offerId = textOf(sent, 'offer');
    const password = sent.get('password');
    const { address } = await clientOrigin();
    const { agreementId } = await signOffer(await currentContext(), {
      offerId,
      version: Number(textOf(sent, 'version')),
      fingerprint: textOf(sent, 'fingerprint'),
      name: textOf(sent, 'name'),
      // Blanks at its ends may be part of a password.
      password: typeof password === 'string' ? password : '',
      address,
      ...keyOf(sent),
    });
    if (agreementId !== null) {
      return {
        to: await tellingAddress(`/agreements/${agreementId}`, {}, 'Both sides have signed. It stands.'),
      };
    }
    const told = 'You have signed. It counts when the other side has signed the same version.';
    return { to: await tellingAddress(`/offers/${offerId}`, {}, told) };
  });
}
