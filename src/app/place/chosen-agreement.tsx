/**
 * Pages that record something are about one agreement: the one that is asked for, or the only one.
 */

import type { Verb } from '../../domain/parties/permissions.ts';
import { type AgreementSummary, readAgreementList } from '../../usecases/agreements/read-agreement-list.ts';
import { type AgreementView, readAgreementWords } from '../../usecases/agreements/read-agreement-words.ts';
import { type Context, permit } from '../../usecases/context.ts';
import { type Asked, askedText } from './asked.ts';

export interface Chosen {
  readonly agreements: readonly AgreementSummary[];
  readonly agreement: AgreementView | undefined;
}

/** Refuses `not-allowed` for a role without the verb, `not-found` for an agreement of others. */
export async function chooseAgreement(
  context: Context,
  { asked, locale, verb }: { readonly asked: Asked; readonly locale: string; readonly verb: Verb },
): Promise<Chosen> {
  permit(context, verb);
  const agreements = await readAgreementList(context, { locale });
  const agreementId =
    askedText(asked, 'agreement') ?? (agreements.length === 1 ? agreements[0]?.id : undefined);
  const agreement =
    agreementId === undefined ? undefined : await readAgreementWords(context, { agreementId });
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
    return <p>There is no agreement here yet, so there is nothing to record for.</p>;
  return (
    <>
      <p>Under which agreement?</p>
      <ul className="pick">
        {agreements.map(({ id, number, seller, buyer, side }) => (
          <li key={id}>
            <a className="act-link" href={`${path}?agreement=${id}`}>
              {number} with {side === 'seller' ? buyer : seller}
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
  const { number, side, seller, buyer } = agreement;
  return (
    <p className="quiet-word">
      {number} with {side === 'seller' ? buyer : seller}
      {agreements.length > 1 ? (
        <>
          {' · '}
          <a href={path}>another agreement</a>
        </>
      ) : null}
    </p>
  );
}
