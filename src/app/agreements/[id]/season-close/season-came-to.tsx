/**
 * What a season came to, as its closing statement says it.
 */
import type { Figures } from '../../../../documents/figures.ts';
import {
  type CloseStanding,
  carriedSentence,
  carriedTitle,
  closingFacts,
} from '../../../../documents/season-close/closing-facts.ts';
import type { ClosingStatement } from '../../../../domain/season-close/closing-statement.ts';

/** `standing` says whether the figures are of now, drawn up to be signed, or sealed. */
export function SeasonCameTo({
  statement,
  figures,
  standing,
}: {
  readonly statement: ClosingStatement;
  readonly figures: Figures;
  readonly standing: CloseStanding;
}) {
  const { seller, buyer, drawnUpOn } = statement;
  const carried = carriedSentence(statement, figures);
  return (
    <section aria-labelledby="statement">
      <h2 id="statement">What the season came to</h2>
      <p className="quiet-word">
        {seller} and {buyer}, {standing === 'now' ? 'as it stands on' : 'drawn up on'} {drawnUpOn}
      </p>
      <dl className="facts sums came-to">
        {closingFacts(statement, figures)
          .filter(({ isNone }) => !isNone)
          .map(({ name, value }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd className="amount">{value}</dd>
            </div>
          ))}
      </dl>
      {carried === undefined || standing === 'now' ? null : (
        <p>
          {carriedTitle(standing)}: {carried}
        </p>
      )}
    </section>
  );
}
