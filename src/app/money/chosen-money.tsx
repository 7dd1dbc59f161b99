/**
 * Pages about the payments of one agreement: the one that is asked for, or the only one. Advisers see no money.
 */
import { redirect } from 'next/navigation';
import type { Verb } from '../../domain/parties/permissions.ts';
import { type AgreementSummary, readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import { type Context, permit } from '../../usecases/context.ts';
import { type AgreementPayments, readPayments } from '../../usecases/money/read-payments.ts';
import { type Asked, askedText } from '../place/asked.ts';
import { AgreementChoice } from '../place/chosen-agreement.tsx';
import { Told } from '../place/told.tsx';

export interface ChosenMoney {
  readonly agreements: readonly AgreementSummary[];
  readonly money: AgreementPayments | undefined;
}

/**
 * Refuses `not-allowed` for a role without the verb, and `not-found` for an agreement that is not one's own. Where a payment is
 * to be recorded, no sealed agreement is offered, and one that is asked for leads to its own page, which says that.
 */
export async function chooseMoney(
  context: Context,
  { asked, locale, verb }: { readonly asked: Asked; readonly locale: string; readonly verb: Verb },
): Promise<ChosenMoney> {
  permit(context, verb);
  const isReading = verb === 'read';
  const agreements = (await readAgreementList(context, { locale })).filter(
    ({ side, isSealed }) => side !== 'adviser' && (isReading || !isSealed),
  );
  const agreementId =
    askedText(asked, 'agreement') ?? (agreements.length === 1 ? agreements[0]?.id : undefined);
  const money = agreementId === undefined ? undefined : await readPayments(context, { agreementId });
  if (money?.isSealed && !isReading) redirect(`/agreements/${money.agreementId}`);
  return { agreements, money };
}

export interface MoneyHeadProps {
  readonly chosen: ChosenMoney;
  readonly title: string;
  readonly path: string;
  readonly told: string | undefined;
}

/** The title, which agreement it is about, the way to another, and what was just done. */
export function MoneyHead({ chosen: { agreements, money }, title, path, told }: MoneyHeadProps) {
  return (
    <>
      <h1>{title}</h1>
      {money ? (
        <p className="quiet-word">
          {money.agreement} with {money.partner}
          {agreements.length > 1 ? (
            <>
              {' · '}
              <a href={path}>another agreement</a>
            </>
          ) : null}
          {' · '}
          <a href="/money">Money</a>
        </p>
      ) : null}
      <Told told={told} />
      {money ? null : <AgreementChoice agreements={agreements} path={path} />}
    </>
  );
}
