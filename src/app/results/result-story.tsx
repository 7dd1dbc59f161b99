/**
 * What stands behind a result: who entered it, what the other side says, its report, and what can be done about it.
 */
import { randomUUID } from 'node:crypto';
import type { ResultStory } from '../../usecases/results/read-result-stories.ts';
import type { Field } from '../forms/field.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { opening } from '../place/sentence.ts';
import { attach, confirm, contest } from './result-actions.ts';

export interface ResultStoryProps {
  readonly story: ResultStory;
  readonly agreementId: string;
  readonly seller: string;
  readonly buyer: string;
  /** A figure of it was decided by a question: there is nothing to confirm or contest any more. */
  readonly isDecided?: boolean;
  /** Its season is sealed: nothing is done about it any more. */
  readonly isSealed?: boolean;
  /** Where to come back to once something was done. */
  readonly back: string;
}

export function ResultStoryView(props: ResultStoryProps) {
  const { story, agreementId } = props;
  const { version, reason, report, breaches, cautions } = story;
  const facts = [
    { label: 'Laboratory', value: story.laboratory },
    { label: 'Method', value: story.method },
    { label: 'Dry-matter method', value: story.dryMatterMethod },
    { label: 'Reported on', value: story.reportedOn },
  ].filter(({ value }) => value !== null);
  return (
    <div className="result-story">
      {breaches.length === 0 ? null : (
        <div className="caution">
          <p>
            <strong>{opening(breaches.join('; '))}.</strong>
          </p>
          {cautions.map((caution) => (
            <p key={caution}>{caution}</p>
          ))}
        </div>
      )}
      <p>
        {entered(story)}
        {version > 1 ? ` It is version ${version}: “${reason ?? ''}”.` : ''}
      </p>
      {facts.length === 0 ? null : (
        <dl className="facts">
          {facts.map(({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
      {report === null ? null : (
        <p>
          <a href={`/agreements/${agreementId}/files/${report}`}>The laboratory’s report, to save</a>
        </p>
      )}
      <Answers {...props} />
      {props.isSealed ? null : <Steps {...props} />}
    </div>
  );
}

function entered({ enteredBy }: ResultStory): string {
  if (enteredBy === null) return 'It was recorded before it was asked who enters results.';
  if (enteredBy.isLaboratory) return `${enteredBy.name} reported it itself.`;
  return `${enteredBy.isOurs ? 'Your side' : enteredBy.name} entered it.`;
}

function Answers({ story, seller, buyer, isDecided = false, isSealed = false }: ResultStoryProps) {
  const { answers, enteredBy, unusable } = story;
  const contested = answers.find(({ answer }) => answer === 'contest');
  const asked = [seller, buyer].filter(
    (name) => name !== enteredBy?.name && answers.every((answer) => answer.name !== name),
  );
  return (
    <>
      {answers.map(({ name, isOurs, answer, reason }) => (
        <p key={name} className={answer === 'contest' ? 'fault' : undefined}>
          {answer === 'confirm'
            ? `${isOurs ? 'Your side' : name} confirmed these figures.`
            : `${isOurs ? 'Your side contests' : `${name} contests`} these figures: “${reason ?? ''}”`}
        </p>
      ))}
      {contested && !isSealed ? (
        <p>
          Nothing settles from them until {contested.isOurs ? 'your side' : contested.name} confirms them, or{' '}
          {enteredBy === null || enteredBy.isLaboratory
            ? 'others are reported'
            : `${enteredBy.isOurs ? 'your side' : enteredBy.name} puts them right`}
          .
        </p>
      ) : null}
      {contested === undefined && unusable !== null ? <p className="fault">{unusable}.</p> : null}
      {asked.length === 0 || isDecided || isSealed ? null : (
        <p className="hint">
          {asked.join(' and ')} {asked.length === 1 ? 'has' : 'have'} not answered.
        </p>
      )}
    </>
  );
}

function Steps({ story, agreementId, back, isDecided = false }: ResultStoryProps) {
  const { id, sample, mayAttach, isSettled, enteredBy } = story;
  const mayConfirm = story.mayConfirm && !isDecided;
  const mayContest = story.mayContest && !isDecided;
  const isContested = story.answers.some(({ isOurs, answer }) => isOurs && answer === 'contest');
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'result', value: id },
    { kind: 'hidden', name: 'sample', value: sample },
    { kind: 'hidden', name: 'back', value: back },
  ];
  return (
    <>
      {mayConfirm ? (
        <RecordForm
          action={confirm}
          submit="Confirm these figures"
          fields={about}
          requestKey={randomUUID()}
          quiet
        />
      ) : null}
      {mayContest ? (
        <details className="more-fields">
          <summary>{isContested ? 'Contest them for another reason' : 'Contest them'}</summary>
          <RecordForm
            action={contest}
            submit="Contest these figures"
            fields={[
              ...about,
              {
                kind: 'text',
                name: 'reason',
                label: 'What is wrong with them',
                hint: 'Both sides read it. Loads wait until it is over.',
              },
            ]}
            requestKey={randomUUID()}
            scope={`contest-${id}`}
            quiet
          />
        </details>
      ) : null}
      {isSettled && mayAttach && !enteredBy?.isOurs ? (
        <p className="hint">
          A load has settled from these figures: propose a correction on the load’s page if they are wrong.
        </p>
      ) : null}
      {mayAttach ? (
        <details className="more-fields">
          <summary>
            {story.report === null ? 'Attach the laboratory’s report' : 'Attach another report'}
          </summary>
          <RecordForm
            action={attach}
            submit="Attach it"
            fields={[
              ...about,
              {
                kind: 'file',
                name: 'report',
                label: 'The report',
                hint: 'A PDF, or a picture as PNG or JPEG, of at most 10 MB. Both sides can open it.',
                accept: '.pdf,.png,.jpg,.jpeg',
              },
            ]}
            requestKey={randomUUID()}
            scope={`attach-${id}`}
            quiet
          />
        </details>
      ) : null}
    </>
  );
}
