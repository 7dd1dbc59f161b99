/**
 * One silo: what of its dry matter is gone, beside what others found, and every entry that this rests on.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../../documents/figures.ts';
import type { LocalDate } from '../../../../domain/dates/local-date.ts';
import { SILO_NAMES } from '../../../../domain/storage/silo-kind.ts';
import type { SilosView, SiloView } from '../../../../usecases/storage/read-silos.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { TON_WORDS } from '../progress/progress-words.ts';
import { EntryItem, PutRight } from './entry-item.tsx';
import { write } from './silo-actions.ts';
import { siloFields } from './silo-fields.ts';
import { lackSentence, STANDING_WORDS, standingSentence } from './silo-words.ts';

export interface SiloPartProps {
  readonly agreementId: string;
  readonly silo: SiloView;
  readonly delivered: SilosView['delivered'];
  readonly today: LocalDate;
  readonly figures: Figures;
  readonly mayWrite: boolean;
}

export function SiloPart({ agreementId, silo, delivered, today, figures, mayWrite }: SiloPartProps) {
  const { siloId, name, kind, entries, version, lacks, later } = silo;
  const { show } = figures;
  return (
    <section aria-labelledby={`silo-${siloId}`}>
      <h2 id={`silo-${siloId}`}>
        {name}, a {SILO_NAMES[kind]}
      </h2>
      <p className="standing">{standingSentence(silo, { show, today })}</p>
      {lacks.length === 0 ? null : (
        <ul>
          {lacks.map((lack) => (
            <li key={JSON.stringify(lack)}>{lackSentence(lack, today)}</li>
          ))}
        </ul>
      )}
      <Sums silo={silo} show={show} />
      {later.loads + later.fed === 0 ? null : (
        <p className="quiet-word">
          After that day came {later.loads === 1 ? 'one load' : `${later.loads} loads`} and{' '}
          {later.fed === 1 ? 'one entry' : `${later.fed} entries`} of feed, which count from the next measure
          on.
        </p>
      )}
      <Published silo={silo} show={show} />
      {entries.length === 0 ? null : (
        <>
          <h3>Written down</h3>
          <ul className="members written-down">
            {entries.map((entry) => (
              <EntryItem key={entry.entryId} {...{ agreementId, entry, today, figures, mayWrite }} />
            ))}
          </ul>
        </>
      )}
      {mayWrite ? (
        <>
          {FORMS.map(({ of, summary, submit }) => (
            <RecordForm
              key={of}
              action={write}
              submit={submit}
              fields={[
                { kind: 'hidden', name: 'agreement', value: agreementId },
                { kind: 'hidden', name: 'silo', value: siloId },
                { kind: 'hidden', name: 'of', value: of },
                ...siloFields(of, of === 'filling' ? { ...delivered } : {}),
              ]}
              requestKey={randomUUID()}
              scope={`${of}-${siloId}`}
              folded={{
                summary: (
                  <>
                    {summary}
                    <span className="visually-hidden">, {name}</span>
                  </>
                ),
                isOpen: of === 'filling' && entries.length === 0,
              }}
            />
          ))}
          <PutRight
            agreementId={agreementId}
            entry={{ entryId: siloId, version, kind: 'silo', content: { name, kind }, reason: null }}
            label={name}
          />
        </>
      ) : null}
    </section>
  );
}

const FORMS = [
  { of: 'filling', summary: 'Say which loads went in', submit: 'These went in' },
  { of: 'fed', summary: 'Write down what was fed', submit: 'Write it down' },
  { of: 'left', summary: 'Write down what is left', submit: 'This is left' },
] as const;

interface ShownProps {
  readonly silo: SiloView;
  readonly show: (decimal: string) => string;
}

function Sums({ silo, show }: ShownProps) {
  const { loads, delivered, fed, left, notAccounted, unit, name } = silo;
  return (
    <section className="table-box" aria-label={`Dry matter of ${name}`}>
      <table className="record-table">
        <thead>
          <tr>
            <th scope="col">Dry matter</th>
            <th scope="col" className="count">
              {TON_WORDS[unit]}
            </th>
          </tr>
        </thead>
        <tbody>
          <Sum label={`Put in, ${loads === 1 ? 'one load' : `${loads} loads`}`} figure={show(delivered)} />
          <Sum label="Fed" figure={show(fed)} />
          <Sum label="Left" figure={left === undefined ? 'not measured' : show(left)} />
          <Sum label={left === undefined ? 'Not accounted for yet' : 'Gone'} figure={show(notAccounted)} />
        </tbody>
      </table>
    </section>
  );
}

function Sum({ label, figure }: { readonly label: string; readonly figure: string }) {
  return (
    <tr>
      <th scope="row">{label}</th>
      <td className="count">{figure}</td>
    </tr>
  );
}

function Published({ silo: { published, name }, show }: ShownProps) {
  return (
    <details className="more-fields" open={published.some(({ standing }) => standing !== undefined)}>
      <summary>
        What others found to be gone<span className="visually-hidden">, beside {name}</span>
      </summary>
      <ul className="published">
        {published.map(({ of, low, high, source, standing }) => (
          <li key={`${of} ${source}`}>
            {of}: {low === high ? show(low) : `${show(low)} to ${show(high)}`} %
            {standing === undefined ? '' : `; ${STANDING_WORDS[standing]}`}.
            <span className="under">{source}.</span>
          </li>
        ))}
      </ul>
      <p className="quiet-word">
        All of them are about chopped silage, not ear corn: to look at, not to be held to.
      </p>
    </details>
  );
}
