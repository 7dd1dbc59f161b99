/**
 * Bringing in a file of another program: its columns are matched, every row is seen, and then it is recorded.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { IMPORT_KINDS } from '../../domain/tables/wanted-columns.ts';
import { IMPORT_VERBS } from '../../usecases/import/open-import.ts';
import { type Asked, askedText } from '../place/asked.ts';
import { AgreementChoice, AgreementLine, chooseAgreement } from '../place/chosen-agreement.tsx';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';
import { ImportForm } from './import-form.tsx';

export const metadata = { title: 'Bring in a file' };

export default async function ImportPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const { chosen, role } = await ask(async (context) => ({
    // Whoever may bring in anything at all may bring in tickets.
    chosen: await chooseAgreement(context, { asked, locale, verb: IMPORT_VERBS.tickets }),
    role: context.caller.role,
  }));
  const { agreement, agreements } = chosen;
  const told = await toldBy(asked);
  return (
    <>
      <Told told={told} />
      <h1>Bring in a file</h1>
      <AgreementLine chosen={chosen} path="/import" />
      {agreement ? (
        <ImportForm
          key={askedText(asked, 'seal') ?? 'first'}
          agreementId={agreement.id}
          kinds={IMPORT_KINDS.filter((kind) => mayDo(role, IMPORT_VERBS[kind]))}
        />
      ) : (
        <AgreementChoice agreements={agreements} path="/import" />
      )}
    </>
  );
}
