/**
 * Agreements by /api/v1.
 */
import { z } from 'zod';
import { NO_LANGUAGE } from '../../../documents/figures.ts';
import { READING } from '../../../domain/parties/scopes.ts';
import { readAgreementList } from '../../../usecases/agreements/read-agreement-list.ts';
import { readAgreementWords } from '../../../usecases/agreements/read-agreement-words.ts';
import { recordAgreement } from '../../../usecases/agreements/record-agreement.ts';
import { AGREEMENT, AGREEMENT_SUMMARY } from '../answers/agreement-answers.ts';
import { ID } from '../answers/scalars.ts';
import { operation } from '../operation.ts';

export const listAgreements = operation({
  id: 'listAgreements',
  method: 'GET',
  path: '/agreements',
  summary: 'The agreements of the party, and what is owed under each.',
  scopes: READING,
  refusals: [],
  answer: z.strictObject({ agreements: z.array(AGREEMENT_SUMMARY) }),
  work: async (context) => ({ agreements: await readAgreementList(context, { locale: NO_LANGUAGE }) }),
});

export const readOneAgreement = operation({
  id: 'readAgreement',
  method: 'GET',
  path: '/agreements/{id}',
  summary: 'One agreement in words, with its price series and the samples that it awaits.',
  scopes: READING,
  refusals: ['not-found'],
  answer: AGREEMENT,
  work: async (context, { in: { id } }) => await readAgreementWords(context, { agreementId: id }),
});

export const recordOneAgreement = operation({
  id: 'recordAgreement',
  method: 'POST',
  path: '/agreements',
  summary: 'Records an agreement that both sides signed elsewhere. It binds the party, so no token may.',
  scopes: [],
  refusals: ['not-found', 'agreement-taken', 'not-yours'],
  body: z.strictObject({
    document: z.unknown().meta({ description: 'The agreement file.', type: 'object' }),
    sellerId: z.string(),
    buyerId: z.string(),
  }),
  answer: z.strictObject({ agreementId: ID }),
  work: async (context, { body, once }) => await recordAgreement(context, { ...body, ...once }),
});
