/**
 * What the agreed rules for the season come to, on the page on which it is closed: in words, in figures, what is on notes, and
 * the button for the side that issues.
 */
import { randomUUID } from 'node:crypto';
import { signOf, unsigned } from '../../../../documents/amount-strings.ts';
import { type Figures, figuresFor } from '../../../../documents/figures.ts';
import { documentName, type NamedDocument } from '../../../../domain/money/money-document.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { RULE_NAMES } from '../../../../domain/season-close/agreed-rules.ts';
import {
  readSeasonRules,
  type SeasonRulesView,
} from '../../../../usecases/season-close/read-season-rules.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { ask } from '../../../server/ask.ts';
import { issueRules } from './close-actions.ts';

interface PartProps {
  readonly agreementId: string;
  readonly isSealed: boolean;
  readonly locale: string;
}

/** Nothing where no such rule is agreed on, and nothing once the season is sealed: its statement says it then. */
export async function SeasonRulesPart({ agreementId, isSealed, locale }: PartProps) {
  if (isSealed) return null;
  const figures = figuresFor(locale);
  const { view, mayIssue } = await ask(async (context) => ({
    view: await readSeasonRules(context, { agreementId, show: figures.show }),
    mayIssue: mayDo(context.caller.role, 'issue-invoice'),
  }));
  if (view.rules.length === 0) return null;
  return (
    <section aria-labelledby="season-rules">
      <h2 id="season-rules">By the agreed rules</h2>
      {view.rules.map((rule) => (
        <Rule key={rule.rule} rule={rule} view={view} figures={figures} />
      ))}
      <Issuing agreementId={agreementId} view={view} mayIssue={mayIssue} />
    </section>
  );
}

interface RuleProps {
  readonly rule: SeasonRulesView['rules'][number];
  readonly view: SeasonRulesView;
  readonly figures: Figures;
}

function Rule({ rule, view, figures }: RuleProps) {
  const { told, how, notes, issued, left, waits } = rule;
  const isLeft = !waits && signOf(left) !== 0;
  const money = (amount: string) => `${figures.show(unsigned(amount))} ${view.currency}`;
  return (
    <>
      <h3>{RULE_NAMES[rule.rule]}</h3>
      <p>{told}</p>
      {how.length === 0 ? null : (
        <details className="more-fields">
          <summary>{how.length === 1 ? 'In figures' : `In figures, ${how.length} loads`}</summary>
          <dl>
            {how.map(({ ticket, how: figure }) => (
              <div key={ticket ?? figure} className="line-of-load">
                {ticket === undefined ? null : <dt>Load {ticket}</dt>}
                <dd className="how-figures">{figure}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
      {notes.length === 0 ? (
        isLeft ? null : (
          <p className="quiet-word">No note is issued for it.</p>
        )
      ) : (
        <p>
          Issued so far: {money(issued)}
          {signOf(issued) < 0 ? ' that the seller owes' : ''}, by{' '}
          {notes.map(({ id, number, kind }, index) => (
            <span key={id}>
              {index === 0 ? '' : ', '}
              <a href={`/money/documents/${id}`}>
                {documentName({ number, kind: kind as NamedDocument['kind'] })}
              </a>
            </span>
          ))}
          .
        </p>
      )}
      {isLeft ? (
        <p>
          {signOf(left) < 0 ? 'A credit note of ' : 'A debit note of '}
          <strong>{money(left)}</strong> is to be issued.
        </p>
      ) : null}
    </>
  );
}

interface IssuingProps {
  readonly agreementId: string;
  readonly view: SeasonRulesView;
  readonly mayIssue: boolean;
}

function Issuing({ agreementId, view, mayIssue }: IssuingProps) {
  const open = view.rules.filter(({ left, waits }) => !waits && signOf(left) !== 0);
  if (open.length === 0) return null;
  if (!view.isIssuer) return <p className="hint">By your agreement {view.issuer} issues the notes.</p>;
  if (view.lastDay !== undefined && !view.isPast) {
    return (
      <p className="hint">
        Loads are delivered until {view.lastDay}. The notes are issued after that day, and these figures are
        those of today.
      </p>
    );
  }
  if (!mayIssue) return <p className="hint">An owner or bookkeeper of your party issues the notes.</p>;
  return (
    <RecordForm
      action={issueRules}
      submit={open.length === 1 ? 'Issue the note' : `Issue the notes, ${open.length}`}
      requestKey={randomUUID()}
      scope="rules"
      fields={[
        { kind: 'hidden', name: 'agreement', value: agreementId },
        {
          kind: 'checks',
          name: 'rule',
          label: 'By which rules',
          options: open.map(({ rule }) => ({ value: rule, label: RULE_NAMES[rule] })),
          ticked: open.map(({ rule }) => rule),
        },
        ...(view.lastDay === undefined
          ? [
              {
                kind: 'checks' as const,
                name: 'loads',
                label: 'No last day of delivery is agreed on',
                options: [{ value: 'over', label: 'No more loads come' }],
                ticked: [],
              },
            ]
          : []),
      ]}
    />
  );
}
