/**
 * What a season came to, as its closing statement says it.
 */
import { signOf, unsigned } from '../../../../documents/amount-strings.ts';
import type { Figures } from '../../../../documents/figures.ts';
import type { ClosingStatement } from '../../../../domain/season-close/closing-statement.ts';
import { type PointWords, pointInWords } from '../../../../domain/season-close/open-points.ts';

/** How what came stands against what was committed, with its tolerance. */
const STANDING_WORDS: Readonly<Record<NonNullable<ClosingStatement['committed']>['standing'], string>> = {
  under: 'less than agreed',
  within: 'as agreed',
  over: 'more than agreed',
};

/** How the statement's parties and amounts are written for a reader. */
export function wordsOf({ seller, buyer, currency }: ClosingStatement, figures: Figures): PointWords {
  return { seller, buyer, money: (amount) => `${figures.show(amount)} ${currency}` };
}

/** `standing` says whether the figures are of now, drawn up to be signed, or sealed. */
export function SeasonCameTo({
  statement,
  figures,
  standing,
}: {
  readonly statement: ClosingStatement;
  readonly figures: Figures;
  readonly standing: 'now' | 'drawn up' | 'sealed';
}) {
  const { loads, committed, money, questions, seller, buyer, carried, journal } = statement;
  const words = wordsOf(statement, figures);
  const amount = words.money;
  const sign = signOf(money.balance);
  const counted = (rows: readonly (readonly [string, string])[]) =>
    rows.filter(([, count]) => count !== '0').map(([name, count]) => [name, figures.show(count)] as const);
  const facts: readonly (readonly [string, string])[] = [
    ['Loads settled', figures.show(loads.settled)],
    ...counted([
      ['Loads refused', loads.refused],
      ['Loads not settled', loads.unsettled],
    ]),
    ...(committed
      ? ([
          [
            `Committed, ${committed.unit} ${committed.weight}`,
            `${figures.show(committed.amount)}${committed.tolerancePercent === null ? '' : `, ± ${figures.show(committed.tolerancePercent)} %`}`,
          ],
          ['Delivered of it', `${figures.show(committed.delivered)}, ${STANDING_WORDS[committed.standing]}`],
        ] as const)
      : []),
    ['The loads came to', amount(money.settled)],
    ['Invoiced, notes and fees included', amount(money.invoiced)],
    ['Paid', amount(money.paid)],
    [
      'Left at the close',
      sign === 0 ? 'nothing' : `${sign > 0 ? buyer : seller} owes ${amount(unsigned(money.balance))}`,
    ],
    ...counted([
      ['Questions decided', questions.decided],
      ['Questions withdrawn', questions.withdrawn],
      ['Questions agreed between you', questions.agreed],
    ]),
    ['Entries of the journal', figures.show(journal.entries)],
  ];
  return (
    <section aria-labelledby="statement">
      <h2 id="statement">What the season came to</h2>
      <p className="quiet-word">
        {seller} and {buyer}, {standing === 'now' ? 'as it stands on' : 'drawn up on'} {statement.drawnUpOn}
      </p>
      <dl className="facts sums">
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="amount">{value}</dd>
          </div>
        ))}
      </dl>
      {carried.length === 0 || standing === 'now' ? null : (
        <p>
          {standing === 'sealed' ? 'Carried over' : 'Carried over by signing'}:{' '}
          {carried
            .map(({ kind, count, amount }) => pointInWords({ kind, count: Number(count), amount }, words))
            .join('; ')}
          .
        </p>
      )}
    </section>
  );
}
