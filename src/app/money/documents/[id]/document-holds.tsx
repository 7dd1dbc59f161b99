/**
 * What of a document is held and why; for whoever is to pay it, the way to question an amount and to let go again.
 */
import { randomUUID } from 'node:crypto';
import { signOf } from '../../../../documents/amount-strings.ts';
import type { Figures } from '../../../../documents/figures.ts';
import type { DocumentView, HoldView } from '../../../../usecases/money/read-document.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { holdBack, letGo } from './hold-actions.ts';
import { WHOLE } from './whole-document.ts';

export interface DocumentHoldsProps {
  readonly view: DocumentView;
  readonly figures: Figures;
  /** Whether the reader's role may question an amount. */
  readonly mayQuestion: boolean;
  /** Whether the reader asked for the form; by the address, so that without scripts a refusal is not folded away. */
  readonly isAsking: boolean;
}

export function DocumentHolds({ view, figures, mayQuestion, isAsking }: DocumentHoldsProps) {
  const { holds, side, due, document } = view;
  const mayHold = mayQuestion && side === 'buyer' && signOf(due) > 0;
  if (holds.length === 0 && !mayHold) return null;
  return (
    <section className="money-part" aria-labelledby="held">
      <h2 id="held">{holds.length === 0 ? 'Is an amount wrong?' : 'Held while it is questioned'}</h2>
      {holds.length === 0 ? null : (
        <ul className="held-list">
          {holds.map((hold) => (
            <Hold key={hold.holdId} hold={hold} view={view} figures={figures} mayQuestion={mayQuestion} />
          ))}
        </ul>
      )}
      {side === 'seller' && holds.length > 0 && !view.isSealed ? (
        <p>
          {document.buyer} need not pay what is held. If it is right,{' '}
          {document.season === 'brought-forward' ? (
            <>
              propose it as money for{' '}
              <a href={`/agreements/${view.agreementId}/past-seasons`}>the sealed season</a>
            </>
          ) : (
            'propose to put it right on the load’s page'
          )}
          ; if not, ask {document.buyer} to let go of it. Everything else stays due on its day.
        </p>
      ) : null}
      {mayHold && isAsking ? <Question view={view} figures={figures} /> : null}
      {mayHold && !isAsking ? (
        <p>
          <a className="plain-link" href={`/money/documents/${view.id}?question=yes#held`}>
            {holds.length === 0 ? 'Question an amount' : 'Question another amount'}
          </a>
        </p>
      ) : null}
    </section>
  );
}

interface HoldProps extends Omit<DocumentHoldsProps, 'isAsking'> {
  readonly hold: HoldView;
}

function Hold({ hold, view, figures, mayQuestion }: HoldProps) {
  const { holdId, ticket, amount, reason, since, by, isOurs, waitsForCorrection, retestId } = hold;
  const loadId = view.loads.find((load) => load.ticket === ticket)?.loadId;
  return (
    <li>
      <p>
        {by} holds{' '}
        <strong className="amount">
          {figures.show(amount)} {view.document.currency}
        </strong>
        {ticket === null ? (
          // What was held in a sealed season says in its reason of which load.
          view.document.season === 'brought-forward' ? (
            ' of it'
          ) : (
            ' of the whole document'
          )
        ) : (
          <>
            {' of '}
            {loadId === undefined ? `load ${ticket}` : <a href={`/loads/${loadId}`}>load {ticket}</a>}
          </>
        )}{' '}
        since {since}: “{reason}”
      </p>
      {waitsForCorrection ? (
        <p>
          A correction is proposed, and its answer decides this: <a href="/corrections">corrections</a>.
        </p>
      ) : null}
      {retestId === undefined ? null : (
        <p>
          A retest decides this: <a href={`/retests/${retestId}`}>the question and what comes next</a>.
        </p>
      )}
      {isOurs && mayQuestion && !waitsForCorrection && retestId === undefined ? (
        <RecordForm
          action={letGo}
          submit="Let go of it: it is due again"
          requestKey={randomUUID()}
          scope={holdId}
          quiet
          fields={[
            { kind: 'hidden', name: 'document', value: view.id },
            { kind: 'hidden', name: 'hold', value: holdId },
          ]}
        />
      ) : null}
    </li>
  );
}

function Question({ view, figures }: Pick<DocumentHoldsProps, 'view' | 'figures'>) {
  const { document, loads, due } = view;
  const { currency } = document;
  return (
    <>
      <p>
        Say what you make of it yourself. What {document.seller} asks for beyond your figure is held and not
        due until you let go of it or both sides agree on a correction. The rest stays due on its day.{' '}
        {figures.show(due)} {currency} of this document is due still.
      </p>
      <RecordForm
        action={holdBack}
        submit="Hold back the difference"
        requestKey={randomUUID()}
        fields={[
          { kind: 'hidden', name: 'document', value: view.id },
          {
            kind: 'list',
            name: 'load',
            label: 'What is wrong',
            value: loads.length === 1 ? (loads[0]?.loadId ?? '') : '',
            options: [
              // Nothing is chosen at first: a load's figure against the whole document would hold nearly all of it.
              ...(loads.length === 1 ? [] : [{ value: '', label: 'Choose a load, or the whole document' }]),
              ...loads.map(({ loadId, ticket, amount }) => ({
                value: loadId,
                label: `Load ${ticket}: ${figures.show(amount)} ${currency}`,
              })),
              {
                value: WHOLE,
                label: `The whole document: ${figures.show(document.totals.payable)} ${currency}`,
              },
            ],
          },
          {
            kind: 'text',
            name: 'figure',
            label: 'What you make of it yourself',
            hint: 'The amount that you hold to be right for it, not the difference. 0 where nothing is owed for it.',
            keys: 'decimal',
            unit: currency,
          },
          {
            kind: 'text',
            name: 'reason',
            label: 'Why',
            hint: `${document.seller} reads this.`,
          },
        ]}
      />
    </>
  );
}
