/**
 * What the reader can do for this load now, if anything.
 */
import { mayDo, type Role } from '../../../domain/parties/permissions.ts';
import type { LoadView } from '../../../usecases/loads/read-load.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { choose, nameDate, settleOne } from '../load-actions.ts';

export interface LoadStepProps {
  readonly load: LoadView;
  readonly role: Role;
  readonly series: readonly string[];
  readonly requestKey: string;
  /** Its sample has a result, whether or not it counts for now. */
  readonly hasResult: boolean;
}

export function LoadStep({ load, role, series, requestKey, hasResult }: LoadStepProps) {
  const { standing, side } = load;
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'agreement', value: load.agreementId },
    { kind: 'hidden', name: 'load', value: load.id },
    { kind: 'hidden', name: 'ticket', value: load.ticket.ticket },
  ];
  const isOpen = load.history.every(({ kind }) => kind !== 'settlement');
  if ((standing.status === 'ready' || standing.status === 'refused') && isOpen && mayDo(role, 'settle')) {
    const label = standing.status === 'ready' ? 'Settle this load' : 'Close it as refused';
    return <RecordForm action={settleOne} submit={label} fields={about} requestKey={requestKey} />;
  }
  if (standing.status !== 'waiting') return null;
  switch (standing.reason) {
    case 'choice-needed':
    case 'refusal-contested':
      if (side !== 'buyer' || !mayDo(role, 'record-choice')) return null;
      return (
        <RecordForm
          action={choose}
          submit="Record the decision"
          requestKey={requestKey}
          fields={[
            ...about,
            {
              kind: 'choice',
              name: 'choice',
              label: 'Your decision',
              hint: 'The newest decision counts until the load is settled; both sides see each.',
              options: [
                { value: 'accept', label: 'Accept: it is priced as agreed' },
                ...(standing.reason === 'choice-needed'
                  ? [{ value: 'refuse', label: 'Refuse: nothing is owed for it' }]
                  : []),
              ],
            },
            ...(standing.reason === 'choice-needed'
              ? [
                  {
                    kind: 'text',
                    name: 'went_to',
                    label: 'Where it went, if you refuse it',
                    hint: 'Like “back to the grower’s yard”. Leave it empty if you accept.',
                  } as const,
                ]
              : []),
          ]}
        />
      );
    case 'not-elected':
      if (side !== 'seller' || !mayDo(role, 'record-election')) return null;
      return (
        <RecordForm
          action={nameDate}
          submit="Name the date"
          requestKey={requestKey}
          fields={[
            ...about,
            seriesField(series),
            { kind: 'date', name: 'date', label: 'Pricing date', hint: 'It stands once it is recorded.' },
          ]}
        />
      );
    case 'no-result':
      // A result that lacks a figure is never filled up: the standing says what it lacks.
      if (load.ticket.tests || hasResult || !mayDo(role, 'record-result')) return null;
      return (
        <StepLink
          to={`/results/new?agreement=${load.agreementId}${ofSample(load)}`}
          label="Enter the result"
        />
      );
    case 'no-quote':
    case 'month-open':
      if (!mayDo(role, 'record-quote')) return null;
      return <StepLink to={`/prices/new?agreement=${load.agreementId}`} label="Record a price" />;
    case 'outside-table':
      return null;
  }
}

function StepLink({ to, label }: { readonly to: string; readonly label: string }) {
  return (
    <p>
      <a className="act-link" href={to}>
        {label}
      </a>
    </p>
  );
}

function ofSample({ sample }: LoadView): string {
  return sample === undefined ? '' : `&sample=${encodeURIComponent(sample)}`;
}

function seriesField(series: readonly string[]): Field {
  const [only] = series;
  if (series.length === 1 && only !== undefined) return { kind: 'hidden', name: 'series', value: only };
  return {
    kind: 'list',
    name: 'series',
    label: 'Price series',
    options: series.map((name) => ({ value: name, label: name })),
  };
}
