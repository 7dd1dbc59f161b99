/**
 * From delivery to money: three waits as lines from the day of delivery, and in sentences.
 */
import type { SeasonPage } from '../../../../usecases/season/read-season-page.ts';
import { paidSentence, unpaidSentence, waitSentence } from './season-words.ts';

interface WaitDrawn {
  readonly name: string;
  readonly half: number;
  readonly longest: number;
}

const FRAME = { width: 560, row: 34, left: 84, right: 74 } as const;

export function SeasonDays({ page }: { readonly page: SeasonPage }) {
  const { settlement, money } = page.season;
  if (!settlement) return null;
  const drawn: WaitDrawn[] = [
    { name: 'Price', half: Number(settlement.plainMedian), longest: settlement.longest },
    ...(money?.invoice
      ? [
          {
            name: 'Invoice',
            half: Number(money.invoice.plainMedian),
            longest: money.invoice.longest,
          },
        ]
      : []),
    ...(money?.median === undefined || money.longest === undefined
      ? []
      : [{ name: 'Money', half: money.median, longest: money.longest }]),
  ];
  return (
    <section aria-labelledby="days">
      <h2 id="days">From delivery to money</h2>
      <Waits drawn={drawn} />
      <ul>
        <li>
          <strong>Price.</strong>{' '}
          {waitSentence(settlement, { one: 'had its price', many: 'had their price' })}
        </li>
        {money ? (
          <>
            <li>
              <strong>Invoice.</strong>{' '}
              {money.invoice
                ? waitSentence(money.invoice, { one: 'was invoiced', many: 'were invoiced' })
                : 'None is invoiced yet.'}
              {money.invoice && money.notInvoiced > 0
                ? ` ${money.notInvoiced === 1 ? 'One settled load is' : `${money.notInvoiced} settled loads are`} on no invoice yet.`
                : ''}
            </li>
            <li>
              <strong>Money.</strong> {paidSentence(money, page)}
            </li>
            {money.invoice || money.unpaid.documents > 0 ? (
              <li>
                <strong>Unpaid.</strong> {unpaidSentence(money, page)}
              </li>
            ) : null}
          </>
        ) : null}
      </ul>
      <p className="hint">
        Days are counted from the day of delivery to the day on which the price was settled here
        {money
          ? ', to the date of the invoice, and to the day of payment or of set-off. Advances count as money on their day; a check that came back does not count, and discounts, interest and fees are left out.'
          : '.'}{' '}
        Loads that were brought in from a file long after they came count from their delivery, too.
      </p>
    </section>
  );
}

function Waits({ drawn }: { readonly drawn: readonly WaitDrawn[] }) {
  const most = Math.max(...drawn.map(({ longest }) => longest), 1);
  const height = drawn.length * FRAME.row + 6;
  const x = (days: number) =>
    Math.round((FRAME.left + (days / most) * (FRAME.width - FRAME.left - FRAME.right)) * 10) / 10;
  const label = drawn
    .map(({ name, half, longest }) => `${name}: half within ${half} days, all of it within ${longest}`)
    .join('. ');
  return (
    <figure className="chart wait-chart">
      <svg viewBox={`0 0 ${FRAME.width} ${height}`} role="img" aria-label={`${label}.`}>
        <line className="chart-tick" x1={FRAME.left} x2={FRAME.left} y1="0" y2={height} />
        {drawn.map(({ name, half, longest }, index) => {
          const y = index * FRAME.row + FRAME.row / 2 + 3;
          return (
            <g key={name}>
              <text className="chart-name" x={FRAME.left - 8} y={y + 5} textAnchor="end">
                {name}
              </text>
              <line className="wait-all" x1={FRAME.left} x2={x(longest)} y1={y} y2={y} />
              <line className="wait-half" x1={FRAME.left} x2={x(half)} y1={y} y2={y} />
              <line className="wait-end" x1={x(longest)} x2={x(longest)} y1={y - 8} y2={y + 8} />
              <text className="chart-word" x={x(longest) + 7} y={y + 5}>
                {longest === 1 ? '1 day' : `${longest} days`}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption>
        Thick: within which half was there. Thin, to the mark: the longest, with its days.
      </figcaption>
    </figure>
  );
}
