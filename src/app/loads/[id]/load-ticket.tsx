/**
 * What was weighed and tested.
 */
import type { Measured } from '../../../documents/invoice/invoice-data.ts';
import { MEASURE_NAMES } from '../../../domain/agreement/measures.ts';
import type { LoadView } from '../../../usecases/loads/read-load.ts';
import type { ResultStory } from '../../../usecases/results/read-result-stories.ts';
import { addressOf } from '../../place/asked.ts';
import { reportedFigure } from '../../results/reported-figure.ts';
import { ResultStoryView } from '../../results/result-story.tsx';

const shown = ({ figure, unit }: Measured) => `${figure} ${unit === 'short-ton' ? 'short ton' : unit}`;

export interface LoadTicketProps {
  readonly load: LoadView;
  /** Of its sample, where there is a result. */
  readonly story: ResultStory | undefined;
  readonly isSealed: boolean;
  /** A figure of its result was decided by a question. */
  readonly isDecided: boolean;
  readonly mayTake: boolean;
}

export function LoadTicket({ load, story, isSealed, isDecided, mayTake }: LoadTicketProps) {
  const { ticket, sample } = load;
  const facts: readonly (readonly [string, string])[] = [
    ['Delivered', ticket.deliveredAt],
    ...(ticket.truck === undefined ? [] : [['Truck', ticket.truck] as const]),
    ['Gross', shown(ticket.gross)],
    ['Tare', shown(ticket.tare)],
    ['Net', shown(ticket.net)],
    ...(ticket.strip.weight === shown(ticket.net) ? [] : [['Net, converted', ticket.strip.weight] as const]),
  ];
  return (
    <div className="beside">
      <section aria-labelledby="ticket">
        <h2 id="ticket">Scale ticket</h2>
        <Facts facts={facts} />
        <p>
          <a href={`/loads/${load.id}/ticket`}>Ticket (PDF)</a>
        </p>
        <p>
          <a href={`/agreements/${load.agreementId}/tickets`}>The ticket book</a>
        </p>
      </section>
      <section aria-labelledby="result">
        <h2 id="result">Result</h2>
        {ticket.tests ? (
          <>
            <p>
              Sample {ticket.tests.sample}, figures as the agreement uses them. The laboratory reported on{' '}
              {ticket.tests.basis}.
            </p>
            <Facts
              facts={ticket.tests.measures.map(
                ({ name, figure, unit }) => [name, `${figure} ${unit}`.trim()] as const,
              )}
            />
          </>
        ) : (
          <Untold sample={sample} story={story} />
        )}
        {story ? (
          <ResultStoryView
            story={story}
            isDecided={isDecided}
            isSealed={isSealed}
            agreementId={load.agreementId}
            seller={load.seller}
            buyer={load.buyer}
            back={`/loads/${load.id}`}
          />
        ) : null}
        <p>
          <a href={samplesAddress(load, mayTake)}>
            {sample === undefined && mayTake ? 'Record that a sample was taken' : `The agreement’s samples`}
          </a>
        </p>
      </section>
    </div>
  );
}

interface UntoldProps {
  readonly sample: string | undefined;
  readonly story: ResultStory | undefined;
}

/** Where no figure counts: why, and those that are contested as they were reported. */
function Untold({ sample, story }: UntoldProps) {
  if (sample === undefined) return <p>The ticket names no sample.</p>;
  if (!story) return <p>None yet of sample {sample}.</p>;
  return (
    <>
      <p>
        Sample {sample} as it was reported, on {story.basis === 'as-fed' ? 'as-fed weight' : 'dry matter'}.
        These figures do not count for now.
      </p>
      <Facts
        facts={story.figures.map(
          (of) => [MEASURE_NAMES[of.measure], reportedFigure(of, story.basis)] as const,
        )}
      />
    </>
  );
}

function samplesAddress({ agreementId, sample, ticket }: LoadView, mayTake: boolean): string {
  const path = `/agreements/${agreementId}/samples`;
  if (sample !== undefined) return `${addressOf(path, { sample })}#sample-${encodeURIComponent(sample)}`;
  return mayTake ? `${addressOf(path, { ticket: ticket.ticket })}#take` : path;
}

function Facts({ facts }: { readonly facts: readonly (readonly [string, string])[] }) {
  return (
    <dl className="facts">
      {facts.map(([label, value]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
