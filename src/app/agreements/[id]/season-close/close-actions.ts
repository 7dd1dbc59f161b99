/**
 * Drawing up and signing the closing statement of a season, and issuing what its agreed rules come to.
 */
'use server';

import { documentName } from '../../../../domain/money/money-document.ts';
import { AGREED_RULES } from '../../../../domain/season-close/agreed-rules.ts';
import { proposeClose, signClose } from '../../../../usecases/season-close/close-season.ts';
import { issueSeasonRules } from '../../../../usecases/season-close/issue-season-rules.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { keyOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';

export async function drawUpClose(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    await proposeClose(await currentContext(), {
      agreementId,
      carriesOver: textOf(sent, 'carries.over') === 'yes',
      name: textOf(sent, 'name'),
      ...keyOf(sent),
    });
    const told =
      'The closing statement is drawn up and signed for your side. It seals the season once the other side signs it.';
    return { to: await tellingAddress(`/agreements/${agreementId}/season-close`, {}, told) };
  });
}

export async function signSeason(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    await signClose(await currentContext(), {
      closeId: textOf(sent, 'close'),
      fingerprint: textOf(sent, 'fingerprint'),
      name: textOf(sent, 'name'),
      ...keyOf(sent),
    });
    const told = 'Both sides have signed: the season is sealed.';
    return { to: await tellingAddress(`/agreements/${textOf(sent, 'agreement')}/season-close`, {}, told) };
  });
}

export async function issueRules(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const { documents } = await issueSeasonRules(await currentContext(), {
      agreementId,
      rules: AGREED_RULES.filter((rule) => textOf(sent, `rule.${rule}`) === 'yes'),
      noMoreLoads: textOf(sent, 'loads.over') === 'yes',
      ...keyOf(sent),
    });
    const names = documents.map(documentName);
    const told =
      names.length === 0
        ? 'Nothing was left to issue, so nothing was issued.'
        : `${names.join(' and ')} ${names.length === 1 ? 'is' : 'are'} issued, and cannot be changed any more. Should a load still come, the next note brings the difference.`;
    return { to: await tellingAddress(`/agreements/${agreementId}/season-close`, {}, told) };
  });
}
