/**
 * What stands on a document: its lines load by load, what is taken off, and what it comes to. Each load opens on how its
 * lines came about.
 */
import { signOf, sumOf, turned } from '../../../../documents/amount-strings.ts';
import type { Figures } from '../../../../documents/figures.ts';
import {
  type DocumentLine,
  type MoneyDocument,
  SEASON_SUM_NAMES,
} from '../../../../domain/money/money-document.ts';

interface SheetProps {
  readonly document: MoneyDocument;
  readonly figures: Figures;
}

export interface DocumentLinesProps extends SheetProps {
  /** The loads on it, for the way to their pages. */
  readonly loadIds: ReadonlyMap<string, string>;
}

export function DocumentLines({ document, figures, loadIds }: DocumentLinesProps) {
  const { lines, deductions, advances, currency } = document;
  const loads = grouped(lines, ({ load }) => (load === null ? '' : `${load.deliveredOn} ${load.ticket}`));
  const kinds = grouped(deductions, ({ label, payee }) => `${label} ${payee ?? ''}`);
  const isOnly = loads.length === 1;
  return (
    <section aria-labelledby="lines">
      <h2 id="lines">What stands on it, {currency}</h2>
      {loads.map((group) => {
        const load = group[0]?.load ?? null;
        const name = load === null ? 'Not of one load' : `Load ${load.ticket}, ${load.deliveredOn}`;
        return (
          <Lines
            key={name}
            name={name}
            lines={group}
            figures={figures}
            isOpen={isOnly}
            loadId={loadIds.get(load?.ticket ?? '')}
          />
        );
      })}
      {kinds.length === 0 ? null : <h3>Taken off</h3>}
      {kinds.map((group) => {
        const [first] = group;
        if (!first) return null;
        const to = first.payee === null ? `kept by ${document.buyer}` : `paid on to ${first.payee}`;
        const name = `${first.label}, ${to}`;
        const named = group.map((line) => ({
          ...line,
          label: line.load === null ? line.label : `Load ${line.load.ticket}, ${line.load.deliveredOn}`,
        }));
        return <Lines key={name} name={name} lines={named} figures={figures} isOpen={false} />;
      })}
      {advances.length === 0 ? null : (
        <>
          <h3>Advances taken off</h3>
          <dl className="facts sums">
            {advances.map(({ load, number, issuedOn, amount }) => (
              <div key={`${load.ticket} ${number}`}>
                <dt>
                  Load {load.ticket}, by advance invoice {number} of {issuedOn}
                </dt>
                <dd className="amount">{figures.show(amount)}</dd>
              </div>
            ))}
          </dl>
        </>
      )}
      <Sums document={document} figures={figures} />
    </section>
  );
}

function grouped<Item>(items: readonly Item[], keyOf: (item: Item) => string): readonly (readonly Item[])[] {
  const groups = new Map<string, Item[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return [...groups.values()];
}

interface LinesProps {
  readonly name: string;
  readonly lines: readonly DocumentLine[];
  readonly figures: Figures;
  readonly isOpen: boolean;
  readonly loadId?: string | undefined;
}

function Lines({ name, lines, figures, isOpen, loadId }: LinesProps) {
  return (
    <details className="load-lines" open={isOpen}>
      <summary>
        <span>{name}</span>
        <span className="amount">{figures.show(sumOf(lines.map(({ amount }) => amount)))}</span>
      </summary>
      <dl>
        {lines.map((line, index) => (
          // Two lines may have one label; they never move.
          // biome-ignore lint/suspicious/noArrayIndexKey: lines never move
          <div key={index} className="line-of-load">
            <dt>{line.label}</dt>
            <dd className="amount">{figures.show(line.amount)}</dd>
            <dd className="how-figures">{line.how}</dd>
          </div>
        ))}
      </dl>
      {loadId === undefined ? null : (
        <p>
          <a className="load-link" href={`/loads/${loadId}`}>
            Ticket, tests and settlement of this load
          </a>
        </p>
      )}
    </details>
  );
}

function Sums({ document, figures }: SheetProps) {
  const { kind, totals, deductions, advances } = document;
  const isNote = kind === 'credit-note' || kind === 'debit-note';
  const rows = [
    {
      name: sumName(document),
      amount: totals.goods,
    },
    ...(deductions.length > 0 || signOf(totals.deductions) !== 0
      ? [takenRow('deductions', totals.deductions)]
      : []),
    ...(advances.length > 0 || signOf(totals.advances) !== 0 ? [takenRow('advances', totals.advances)] : []),
  ];
  return (
    <dl className="facts sums">
      {rows.length === 1 && !isNote
        ? null
        : rows.map(({ name, amount }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd className="amount">{figures.show(amount)}</dd>
            </div>
          ))}
      <div className="to-pay">
        <dt>{isNote ? 'Changes what is owed by' : 'To pay, as issued'}</dt>
        <dd className="amount">
          {figures.show(totals.payable)} {document.currency}
        </dd>
      </div>
    </dl>
  );
}

function sumName({ kind, season, lines }: SheetProps['document']): string {
  if (season) return SEASON_SUM_NAMES[season];
  const isNote = kind === 'credit-note' || kind === 'debit-note';
  // Costs and interest that go back are about no load.
  return isNote && lines.some(({ load }) => load !== null) ? 'Change of the goods' : 'Sum of the lines';
}

function takenRow(what: string, amount: string) {
  const name = signOf(amount) < 0 ? `With ${what} given back` : `Less ${what}`;
  return { name, amount: turned(amount) };
}
