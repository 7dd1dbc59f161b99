/**
 * The laboratory clerk's page: a sample, what it was reported on, and the figures.
 */
import { randomUUID } from 'node:crypto';
import { RecordForm } from '../../forms/record-form.tsx';
import { type Asked, askedText } from '../../place/asked.ts';
import { AgreementChoice, AgreementLine, chooseAgreement } from '../../place/chosen-agreement.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { enterResult } from './enter-result.ts';
import { resultFields } from './result-fields.ts';

export const metadata = { title: 'Enter a result' };

export default async function ResultPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const chosen = await ask((context) => chooseAgreement(context, { asked, locale, verb: 'record-result' }));
  const { agreement, agreements } = chosen;
  const told = await toldBy(asked);
  return (
    <div className="narrow">
      {told === undefined ? null : (
        <p className="told" role="status">
          {told} {agreement?.awaited.length === 0 ? 'No other sample is awaited.' : ''}
        </p>
      )}
      <h1>{told === undefined ? 'Enter a result' : 'Next result'}</h1>
      <AgreementLine chosen={chosen} path="/results/new" />
      {agreement ? (
        <RecordForm
          key={askedText(asked, 'seal') ?? 'first'}
          action={enterResult}
          submit="Record this result"
          requestKey={randomUUID()}
          fields={resultFields(agreement, {
            sample: askedText(asked, 'sample'),
            basis: askedText(asked, 'basis'),
            laboratory: askedText(asked, 'laboratory'),
            dryMatterMethod: askedText(asked, 'dry_matter_method'),
          })}
        />
      ) : (
        <AgreementChoice agreements={agreements} path="/results/new" />
      )}
    </div>
  );
}
