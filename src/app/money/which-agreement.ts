/**
 * Which agreement a page about money is for: the one that is asked for, or the only one. Advisers have no part in its money,
 * so what they advise on is not offered; whether one may be read is for the use case to say.
 */
import { type AgreementSummary, readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import type { Context } from '../../usecases/context.ts';
import { type Asked, askedText } from '../place/asked.ts';

export interface WhichAgreement {
  readonly agreementId: string | undefined;
  /** Those to choose from. */
  readonly agreements: readonly AgreementSummary[];
}

/** Where something is to be issued, none whose season is sealed is offered. Refuses `not-allowed`. */
export async function whichAgreement(
  context: Context,
  {
    asked,
    locale,
    isToIssue = false,
  }: { readonly asked: Asked; readonly locale: string; readonly isToIssue?: boolean },
): Promise<WhichAgreement> {
  const agreements = (await readAgreementList(context, { locale })).filter(
    ({ side, isSealed }) => side !== 'adviser' && !(isToIssue && isSealed),
  );
  const only = agreements.length === 1 ? agreements[0]?.id : undefined;
  return { agreementId: askedText(asked, 'agreement') ?? only, agreements };
}
