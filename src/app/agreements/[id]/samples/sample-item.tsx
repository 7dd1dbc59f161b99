/**
 * One sample: how it was taken, the loads that it stands for, its sealed parts, and its result.
 */
import { MEASURE_NAMES } from '../../../../domain/agreement/measures.ts';
import type { ResultStory } from '../../../../usecases/results/read-result-stories.ts';
import type { SampledLoad } from '../../../../usecases/samples/read-sample-loads.ts';
import type { SampleView } from '../../../../usecases/samples/read-samples.ts';
import { addressOf } from '../../../place/asked.ts';
import { reportedFigure } from '../../../results/reported-figure.ts';
import { ResultStoryView } from '../../../results/result-story.tsx';
import { PartsTable } from './parts-table.tsx';

export interface SampleItemProps {
  readonly view: SampleView;
  readonly loads: readonly SampledLoad[];
  readonly story: ResultStory | undefined;
  readonly agreementId: string;
  readonly seller: string;
  readonly buyer: string;
  readonly mayTake: boolean;
  readonly mayReport: boolean;
  /** The wall clock of the agreement. */
  readonly clock: (instant: string) => string;
  readonly back: string;
}

export function SampleItem(props: SampleItemProps) {
  const { view, loads, story, agreementId, seller, buyer, mayTake, mayReport, clock, back } = props;
  const { sample, taking, parts } = view;
  const here = (name: string, value: string, place: string) =>
    `${addressOf(`/agreements/${agreementId}/samples`, { [name]: value })}#${place}`;
  return (
    <li className="sample">
      <h3 id={`sample-${sample}`}>Sample {sample}</h3>
      <p>
        {taking
          ? `Taken on ${clock(taking.takenAt)} by ${taking.takenBy}: ${taking.how}. `
          : parts.length > 0
            ? 'Nothing is recorded of how it was taken. '
            : 'Nothing is recorded of how it was taken, nor a sealed part. '}
        <Loads loads={loads} />
      </p>
      {parts.length === 0 ? (
        taking ? (
          <p>No sealed part of it is recorded.</p>
        ) : null
      ) : (
        <PartsTable
          parts={parts}
          sample={sample}
          clock={clock}
          handOver={mayTake ? (id) => here('part', id, 'hand-over') : undefined}
        />
      )}
      {mayTake ? (
        <p className="links">
          {taking ? null : <a href={here('sample', sample, 'take')}>Record how it was taken</a>}
          <a href={here('sample', sample, 'seal')}>Seal parts of it</a>
        </p>
      ) : null}
      {story ? (
        <details className="more-fields" open={story.unusable !== null || story.breaches.length > 0}>
          <summary>{resultLine(story)}</summary>
          <ResultStoryView
            story={story}
            agreementId={agreementId}
            seller={seller}
            buyer={buyer}
            back={back}
          />
        </details>
      ) : (
        <p>
          There is no result yet.{' '}
          {mayReport ? (
            <a href={addressOf('/results/new', { agreement: agreementId, sample })}>Enter its result</a>
          ) : null}
        </p>
      )}
    </li>
  );
}

function resultLine({ figures, basis, answers }: ResultStory): string {
  const shown = figures.slice(0, 3).map((of) => `${MEASURE_NAMES[of.measure]} ${reportedFigure(of, basis)}`);
  const more = figures.length > 3 ? ` and ${figures.length - 3} more` : '';
  const isContested = answers.some(({ answer }) => answer === 'contest');
  return `${isContested ? 'Contested result' : 'Result'}: ${shown.join(', ')}${more}`;
}

/** As many as a person will read. */
const MOST_LOADS = 12;

function Loads({ loads }: { readonly loads: readonly SampledLoad[] }) {
  if (loads.length === 0) return <>No load names it.</>;
  const rest = loads.length - MOST_LOADS;
  return (
    <>
      It stands for {loads.length === 1 ? 'load' : `${loads.length} loads:`}{' '}
      {loads.slice(0, MOST_LOADS).map(({ id, ticket }, index) => (
        <span key={id}>
          {index > 0 ? ', ' : ''}
          <a href={`/loads/${id}`}>{ticket}</a>
        </span>
      ))}
      {rest > 0 ? ` and ${rest} more` : ''}.
    </>
  );
}
