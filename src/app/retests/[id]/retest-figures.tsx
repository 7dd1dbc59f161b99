/**
 * The figures that were reported, and for the other side the way to confirm or contest one.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../documents/figures.ts';
import type { RecordedFigure, RetestRecord } from '../../../domain/retests/retest-record.ts';
import type { IfConfirmed, RetestView } from '../../../usecases/retests/read-retest.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { opening } from '../../place/sentence.ts';
import { bearerWords, changeWords, type OutlookNames } from '../outlook-words.ts';
import { confirmFigure, contestFigure, takeFigureBack } from '../retest-actions.ts';

export interface RetestFiguresProps {
  readonly view: RetestView;
  readonly figures: Figures;
  readonly mayAct: boolean;
}

export function RetestFigures({ view, figures, mayAct }: RetestFiguresProps) {
  const { record } = view;
  if (record.figures.length === 0) return null;
  return (
    <section aria-labelledby="figures">
      <h2 id="figures">Figures that were reported</h2>
      <ul className="corrections">
        {record.figures.map((figure) => (
          <Figure key={figure.id} figure={figure} view={view} figures={figures} mayAct={mayAct} />
        ))}
      </ul>
      {record.weights ? (
        <p>
          The two net weights lie {figures.show(record.weights.apart)} lb apart; the scales may be off by{' '}
          {figures.show(record.weights.allowed)} lb together.
        </p>
      ) : null}
    </section>
  );
}

function Figure({ figure, view, figures, mayAct }: RetestFiguresProps & { readonly figure: RecordedFigure }) {
  const { record, side } = view;
  const { unit, currency, seller, buyer } = record;
  const { testerName, testedBy, method, value, testedOn, seal, weighing, charge, paidBy, report, by } =
    figure;
  const byOurs = by === side;
  return (
    <li className="correction">
      <h3>
        {figures.show(value)} {unit}
      </h3>
      <p>
        {opening(testerName)}
        {testerName.includes(testedBy) ? '' : `: ${testedBy}`}
        {method === null ? '' : ` (${method})`}, {record.about === 'weight' ? 'weighed' : 'tested'} on{' '}
        {testedOn}
        {seal === null ? '' : `, from the part under seal ${seal}`}.
        {weighing
          ? ` Gross ${figures.show(weighing.gross)}, tare ${figures.show(weighing.tare)} ${weighing.unit}.`
          : ''}
      </p>
      <p className="quiet-word">
        Entered by {byOurs ? 'your side' : by === 'seller' ? seller : buyer} on {figure.enteredOn}. It cost{' '}
        {figures.show(charge)} {currency}, paid by {paidBy === 'seller' ? seller : buyer}.{' '}
        <a href={`/agreements/${record.agreementId}/files/${report}`}>
          {record.about === 'weight' ? 'The second ticket' : 'The report'}
        </a>
      </p>
      <p>{standingWords(figure, record)}</p>
      {mayAct && !byOurs && figure.standing === 'unanswered' && !record.ending ? (
        <Answers figure={figure} view={view} figures={figures} />
      ) : null}
      {mayAct && byOurs && figure.standing === 'unanswered' && !record.ending ? (
        <RecordForm
          action={takeFigureBack}
          submit="Take it back: it was entered wrongly"
          requestKey={randomUUID()}
          scope={`back-${figure.id}`}
          quiet
          fields={[
            { kind: 'hidden', name: 'figure', value: figure.id },
            { kind: 'hidden', name: 'retest', value: record.id },
          ]}
        />
      ) : null}
    </li>
  );
}

function standingWords(
  { standing, isUnanswered, answeredOn, contested, by }: RecordedFigure,
  record: RetestRecord,
): string {
  const other = by === 'seller' ? record.buyer : record.seller;
  switch (standing) {
    case 'counts':
      return isUnanswered
        ? `It counts: ${other} said nothing in time.`
        : `${other} confirmed it on ${answeredOn}: it counts.`;
    case 'unanswered':
      return record.ending
        ? `${other} had not answered when the question ended.`
        : `It waits for ${other}’s word, and counts from ${answeredOn} without one.`;
    case 'contested':
      return `${other} contests it, so it does not count: “${contested ?? ''}”`;
    case 'taken-back':
      return `${by === 'seller' ? record.seller : record.buyer} took it back, so it does not count.`;
  }
}

function Answers({
  figure: { id },
  view,
  figures,
}: Omit<RetestFiguresProps, 'mayAct'> & { readonly figure: RecordedFigure }) {
  const { record, side } = view;
  const retestId = record.id;
  const { seller, buyer, asker, currency } = record;
  const known = view.ifConfirmed.get(id);
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'figure', value: id },
    { kind: 'hidden', name: 'retest', value: retestId },
  ];
  const names = { seller, buyer, asker, side, currency };
  return (
    <>
      {known ? <p>{confirmedWords(known, names, figures)}</p> : null}
      <RecordForm
        action={confirmFigure}
        submit="Confirm: this is what the report says"
        requestKey={randomUUID()}
        scope={`confirm-${id}`}
        fields={about}
      />
      <details>
        <summary>It is not what the report says</summary>
        <p className="hint">
          Contested, it does not count. Its test is called for again with {record.testDays} days, and whoever
          entered it can enter it anew. If nothing comes by then, the rule below says what counts.
        </p>
        <RecordForm
          action={contestFigure}
          submit="Contest it"
          requestKey={randomUUID()}
          scope={`contest-${id}`}
          quiet
          fields={[
            ...about,
            {
              kind: 'text',
              name: 'reason',
              label: 'What is wrong with it',
              hint: 'The other side reads this.',
            },
          ]}
        />
      </details>
    </>
  );
}

/** What confirming would do, in money. */
function confirmedWords(known: IfConfirmed, names: OutlookNames, figures: Figures): string {
  if (known.is === 'goes-on') return 'Once you confirm it, it is taken in, and the next test is called for.';
  const { value, changed, obstacle, bearer } = known;
  if (changed === undefined)
    return `By the rule ${figures.show(value)} would count, but it could not stand: ${obstacle ?? ''}`;
  const bears =
    bearer === 'split'
      ? 'each side bears half of the tests'
      : `${bearerWords(bearer, names)} bears the tests`;
  return `Once you confirm it, the question is decided: ${figures.show(value)} counts. ${changeWords(changed, names, figures)}, and ${bears}.`;
}
