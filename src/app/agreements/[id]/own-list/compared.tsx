/**
 * How an own list and the record compare: the sums first, then each row that does not agree, by how it ends.
 */
import type { ReactNode } from 'react';
import type { Figures } from '../../../../documents/figures.ts';
import type { ListSide } from '../../../../domain/matching/list-row.ts';
import { type NamedOutcome, type Standing, standingsOf } from '../../../../domain/matching/match-lists.ts';
import { standingInWords } from '../../../../domain/words/matching-words.ts';

/** How rows end: with one another, or alone in one of the two. */
type Ended<Row> =
  | { readonly kind: 'pair'; readonly mine: Row; readonly record: Row }
  | { readonly kind: 'only' | 'twice'; readonly in: ListSide; readonly row: Row };

export interface ComparedProps<
  S extends Standing,
  Outcome extends NamedOutcome & Ended<{ readonly id: string }>,
> {
  readonly matching: {
    readonly fileName: string;
    /** ISO 8601, UTC. */
    readonly broughtAt: string;
    readonly ownRows: number;
    readonly counts: Readonly<Record<S, number>> & { readonly agrees: number };
    readonly open: readonly Outcome[];
  };
  /** In the order in which they are told. */
  readonly standings: readonly S[];
  readonly names: Parameters<typeof standingInWords>[1];
  readonly ids: { readonly heading: string; readonly standing: string };
  /** How many rows each of the two has, in words. */
  readonly sizes: string;
  readonly item: (outcome: Outcome) => ReactNode;
  readonly figures: Figures;
  readonly timeZone: string;
  readonly children?: ReactNode;
}

/** As many as a person looks through at once; the others come once these are settled. */
const MOST_SHOWN = 200;

export function Compared<S extends Standing, Outcome extends NamedOutcome & Ended<{ readonly id: string }>>({
  matching: { fileName, broughtAt, ownRows, counts, open },
  standings,
  names,
  ids,
  sizes,
  item,
  figures,
  timeZone,
  children,
}: ComparedProps<S, Outcome>) {
  const day = new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date(broughtAt));
  const told = standings.filter((standing) => standing === 'agrees' || counts[standing] > 0);
  return (
    <section aria-labelledby={ids.heading}>
      <h3 id={ids.heading}>
        {counts.agrees === ownRows && open.length === 0 ? 'Everything agrees' : 'How they compare'}
      </h3>
      <p className="quiet-word">
        {fileName}, brought on {day}: {sizes}
      </p>
      <dl className="facts sums">
        {told.map((standing) => (
          <div key={standing}>
            <dt>{standingInWords(standing, names)}</dt>
            <dd className="amount">{figures.show(String(counts[standing]))}</dd>
          </div>
        ))}
      </dl>
      {standings
        .filter((standing) => standing !== 'agrees')
        .map((standing) => {
          const of = open.filter((outcome) => standingsOf(outcome)[0] === standing);
          if (of.length === 0) return null;
          const id = `${ids.standing}-${standing}`;
          return (
            <section key={standing} aria-labelledby={id}>
              <h4 id={id}>{standingInWords(standing, names)}</h4>
              <ul className="corrections">
                {of.slice(0, MOST_SHOWN).map((outcome) => (
                  <li key={keyOf(outcome)} className="correction">
                    {item(outcome)}
                  </li>
                ))}
              </ul>
              {of.length > MOST_SHOWN ? (
                <p>{figures.show(String(of.length - MOST_SHOWN))} more are not shown.</p>
              ) : null}
            </section>
          );
        })}
      {children}
    </section>
  );
}

/** The rows that an outcome is about, on each side where there is one. */
export function sidesOf<Row>(outcome: Ended<Row>): { readonly own?: Row; readonly recorded?: Row } {
  if (outcome.kind === 'pair') return { own: outcome.mine, recorded: outcome.record };
  return outcome.in === 'mine' ? { own: outcome.row } : { recorded: outcome.row };
}

function keyOf(outcome: Ended<{ readonly id: string }>): string {
  return outcome.kind === 'pair'
    ? `${outcome.mine.id} ${outcome.record.id}`
    : `${outcome.in} ${outcome.row.id}`;
}
