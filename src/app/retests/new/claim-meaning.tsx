/**
 * What one claim would mean: beside the scatter of the test, and in money for each outcome.
 */
import type { Figures } from '../../../documents/figures.ts';
import { questionedName } from '../../../domain/words/retest-course-words.ts';
import type { AskView, ClaimView } from '../../../usecases/retests/read-ask.ts';
import { OutlookTable } from '../outlook-table.tsx';
import { doubtWords } from '../outlook-words.ts';

export interface ClaimMeaningProps {
  readonly claim: ClaimView;
  readonly view: AskView;
  readonly figures: Figures;
}

export function ClaimMeaning({ claim, view, figures }: ClaimMeaningProps) {
  const item = view.items.find(({ id }) => id === claim.id);
  if (!item || claim.wrong !== undefined) return null;
  const { doubt, outlook, name } = claim;
  const isSettled = outlook.some(({ changed }) => changed !== undefined && /[1-9]/.test(changed));
  const what = `${questionedName(view.about)} of ${view.about === 'weight' ? 'load' : 'sample'} ${name}`;
  return (
    <section aria-labelledby={`meaning-${claim.id}`}>
      <h2 id={`meaning-${claim.id}`}>
        {what}: {figures.show(item.first)} or {figures.show(claim.claimed)}
      </h2>
      {doubt ? (
        <p className={doubt.is === 'within' || doubt.isByPublished === 'within' ? 'told' : undefined}>
          {doubtWords(doubt, item.unit)}
        </p>
      ) : null}
      <OutlookTable
        outlook={outlook}
        names={{
          seller: view.seller,
          buyer: view.buyer,
          asker: view.side,
          side: view.side,
          currency: view.currency,
          method: item.rule.method.method,
        }}
        unit={item.unit}
        figures={figures}
        caption={`What a question about ${what} may come to`}
      />
      <p className="hint">
        {outlook.length === 1
          ? 'A figure so near to the first would leave it standing, so nothing would change.'
          : isSettled
            ? 'While it is open, only the difference between the two figures is held, as far as it is invoiced and not paid.'
            : 'None of its loads has settled yet, or their price does not depend on it.'}
      </p>
    </section>
  );
}
