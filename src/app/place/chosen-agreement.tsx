/**
 * Pages that record something are about one agreement: the one that is asked for, or the only one.
 */

import { redirect } from 'next/navigation';
import type { Verb } from '../../domain/parties/permissions.ts';
import { type AgreementSummary, readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import { type AgreementView, readAgreementWords } from '../../usecases/agreements/read-agreement-words.ts';
import { type Context, permit } from '../../usecases/context.ts';
import { Refusal } from '../../usecases/refusal.ts';
import { type Asked, askedText } from './asked.ts';
import { withPartner } from './partner-words.ts';

export interface Chosen {
  readonly agreements: readonly AgreementSummary[];
  readonly agreement: AgreementView | undefined;
}

/**
 * Refuses `not-allowed` for a role without the verb, `not-found` for an agreement of others, and `not-yours` for one that
 * the caller's party advises on only: nothing is recorded there by an adviser. Of a sealed season it leads to the agreement's
 * page, which says that.
 */
export async function chooseAgreement(
  context: Context,
  { asked, locale, verb }: { readonly asked: Asked; readonly locale: string; readonly verb: Verb },
): Promise<Chosen> {
  permit(context, verb);
  const agreements = (await readAgreementList(context, { locale })).filter(
    ({ side, isSealed }) => side !== 'adviser' && !isSealed,
  );
  const agreementId =
    askedText(asked, 'agreement') ?? (agreements.length === 1 ? agreements[0]?.id : undefined);
  const agreement =
    agreementId === undefined ? undefined : await readAgreementWords(context, { agreementId });
  if (agreement?.side === 'adviser') {
    throw new Refusal('not-yours', 'An adviser reads the agreement; its two parties write to it.');
  }
  if (agreement?.isSealed) redirect(`/agreements/${agreement.id}`);
  return { agreements, agreement };
}

/** Where none is chosen yet: which one it is about. */
export function AgreementChoice({
  agreements,
  path,
}: {
  readonly agreements: readonly AgreementSummary[];
  readonly path: string;
}) {
  if (agreements.length === 0)
    return <p>There is no open agreement here, so there is nothing to record for.</p>;
  return (
    <>
      <p>Under which agreement?</p>
      <ul className="pick">
        {agreements.map((agreement) => (
          <li key={agreement.id}>
            <a className="act-link" href={`${path}?agreement=${agreement.id}`}>
              {withPartner(agreement)}
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Which one the page is about, and the way to another. */
export function AgreementLine({ chosen, path }: { readonly chosen: Chosen; readonly path: string }) {
  const { agreements, agreement } = chosen;
  if (!agreement) return null;
  return (
    <p className="quiet-word">
      {withPartner(agreement)}
      {agreements.length > 1 ? (
        <>
          {' · '}
          <a href={path}>another agreement</a>
        </>
      ) : null}
    </p>
  );
}
