/**
 * What was weighed and tested.
 */
import type { Measured } from '../../../documents/invoice/invoice-data.ts';
import type { LoadView } from '../../../usecases/loads/read-load.ts';

const shown = ({ figure, unit }: Measured) => `${figure} ${unit === 'short-ton' ? 'short ton' : unit}`;

export function LoadTicket({ load }: { readonly load: LoadView }) {
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
          <p>{sample === undefined ? 'The ticket names no sample.' : `None yet of sample ${sample}.`}</p>
        )}
      </section>
    </div>
  );
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
