/**
 * Reports a figure that is called for: a laboratory's, or of a second scale. Each test has its own form, so that nobody has to
 * choose what cannot be.
 */
import { randomUUID } from 'node:crypto';
import type { Tester } from '../../../domain/retests/figures.ts';
import type { RetestView } from '../../../usecases/retests/read-retest.ts';
import type { Field, InputField } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { report } from '../retest-actions.ts';

export function ReportForm({ view }: { readonly view: RetestView }) {
  const { record, side } = view;
  const testers = (record.calls?.testers ?? []).filter(
    (tester) => !(tester === 'seller' || tester === 'buyer') || tester === side,
  );
  const waiting = record.figures.filter(({ standing }) => standing === 'unanswered');
  const open = testers.filter((tester) => !waiting.some((figure) => figure.tester === tester));
  if (open.length === 0) return null;
  return (
    <section aria-labelledby="report">
      <h2 id="report">Report a figure</h2>
      {open.map((tester) => (
        <details key={tester} open={open.length === 1 && record.figures.length === 0}>
          <summary>{TITLES[tester]}</summary>
          {tester === 'second-scale' && view.scales.length === 0 ? (
            <p>
              No scale that is legal for trade is described yet. <a href="/scales">Describe the second one</a>{' '}
              with its class and division first.
            </p>
          ) : (
            <RecordForm
              action={report}
              submit="Report it"
              requestKey={randomUUID()}
              scope={`report-${tester}`}
              fields={fieldsOf(tester, view)}
            />
          )}
        </details>
      ))}
    </section>
  );
}

const TITLES: Readonly<Record<Tester, string>> = {
  laboratory: 'The first laboratory tested its part again',
  referee: 'The referee reported',
  seller: 'Our own laboratory tested our part',
  buyer: 'Our own laboratory tested our part',
  'second-scale': 'The truck was weighed on a second scale',
};

function fieldsOf(tester: Tester, view: RetestView): readonly Field[] {
  const { record, side } = view;
  const hidden: readonly Field[] = [
    { kind: 'hidden', name: 'retest', value: record.id },
    { kind: 'hidden', name: 'tester', value: tester },
  ];
  const last: readonly Field[] = [
    { kind: 'date', name: 'tested_on', label: tester === 'second-scale' ? 'Weighed on' : 'Tested on' },
    {
      kind: 'text',
      name: 'charge',
      label: 'What it cost',
      hint: '0 where it cost nothing.',
      keys: 'decimal',
      unit: record.currency,
    },
    {
      kind: 'choice',
      name: 'paid_by',
      label: 'Paid by',
      value: side,
      options: [
        { value: 'seller', label: record.seller },
        { value: 'buyer', label: record.buyer },
      ],
    },
    {
      kind: 'file',
      name: 'report',
      label: tester === 'second-scale' ? 'The second ticket' : 'The laboratory’s report',
      hint: 'PDF or picture. The other side reads it before it confirms the figure.',
      accept: '.pdf,.png,.jpg,.jpeg',
    },
  ];
  return [
    ...hidden,
    ...(tester === 'second-scale' ? scaleFields(view) : laboratoryFields(tester, view)),
    ...last,
  ];
}

function scaleFields({ scales, record: { unit } }: RetestView): readonly InputField[] {
  return [
    {
      kind: 'list',
      name: 'scale',
      label: 'Scale',
      value: '',
      options: [
        { value: '', label: 'Choose the second scale…' },
        ...scales.map(({ id, label }) => ({ value: id, label })),
      ],
    },
    { kind: 'text', name: 'gross', label: 'Gross', keys: 'decimal', unit },
    {
      kind: 'text',
      name: 'tare',
      label: 'Tare',
      hint: 'Of the empty truck, on the same scale.',
      keys: 'decimal',
      unit,
    },
  ];
}

function laboratoryFields(tester: Tester, { record, parts }: RetestView): readonly InputField[] {
  const own = parts.filter(({ part }) => part === tester);
  const name =
    tester === 'referee'
      ? record.referee
      : tester === 'laboratory'
        ? (record.firstReport?.laboratory ?? null)
        : null;
  return [
    {
      kind: 'text',
      name: 'value',
      label: record.name,
      hint: 'As the report has it, with all its decimals.',
      keys: 'decimal',
      unit: record.unit,
    },
    { kind: 'text', name: 'tested_by', label: 'Laboratory', ...(name === null ? {} : { value: name }) },
    { kind: 'text', name: 'method', label: 'Method', optional: true },
    {
      kind: 'list',
      name: 'part',
      label: 'Sealed part that was opened',
      value: own.length === 1 ? (own[0]?.id ?? '') : '',
      options: [
        ...(own.length === 1 ? [] : [{ value: '', label: 'Choose the part…' }]),
        ...own.map(({ id, seal }) => ({ value: id, label: `Seal ${seal}` })),
      ],
    },
  ];
}
