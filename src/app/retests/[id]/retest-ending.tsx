/**
 * How a question ended, and the money that followed.
 */
import { signOf, unsigned } from '../../../documents/amount-strings.ts';
import type { Figures } from '../../../documents/figures.ts';
import { documentName } from '../../../domain/money/money-document.ts';
import type { RecordedEnding, RetestRecord } from '../../../domain/retests/retest-record.ts';
import { opening } from '../../place/sentence.ts';

export interface RetestEndingProps {
  readonly record: RetestRecord;
  readonly ending: RecordedEnding;
  readonly figures: Figures;
}

const TITLES: Readonly<Record<RecordedEnding['ending'], string>> = {
  decided: 'Decided by its rule',
  withdrawn: 'Withdrawn',
  agreed: 'Agreed',
};

export function RetestEnding({ record, ending, figures }: RetestEndingProps) {
  const { unit, buyer, seller, currency, documents } = record;
  const sign = signOf(ending.changed);
  const bears = [
    [seller, ending.sellerBears],
    [buyer, ending.buyerBears],
  ] as const;
  const borne = bears.filter(([, amount]) => signOf(amount) > 0);
  return (
    <section aria-labelledby="ended">
      <h2 id="ended">
        {TITLES[ending.ending]} on {ending.on}
      </h2>
      <p className="owed">
        <strong className="amount">
          {figures.show(ending.value)} {unit}
        </strong>{' '}
        counts. {ending.inWords}
      </p>
      <ul>
        <li>
          {sign === 0
            ? 'No settlement changes.'
            : `${buyer} owes ${figures.show(unsigned(ending.changed))} ${currency} ${sign > 0 ? 'more' : 'less'} for its loads.`}
        </li>
        <li>
          {borne.length === 0
            ? 'No test was paid for.'
            : `The tests are borne by ${borne.map(([name, amount]) => `${name} (${figures.show(amount)} ${currency})`).join(' and ')}.`}
        </li>
        {documents.map((document) => (
          <li key={document.id}>
            <a href={`/money/documents/${document.id}`}>{opening(documentName(document))}</a>:{' '}
            {figures.show(document.payable)} {currency}
          </li>
        ))}
      </ul>
    </section>
  );
}
