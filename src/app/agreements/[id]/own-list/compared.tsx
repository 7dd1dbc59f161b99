/**
 * How two lists compare, an own one with the record or with the other side's: the sums first, then each row that does not agree,
 * by how it ends, and last those for which the record is accepted.
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
    readonly counts: Readonly<Record<S, number>> & { readonly agrees: number };
    readonly open: readonly Outcome[];
    /** Those for which the party accepts the record, and those that both leave standing. */
    readonly accepted?: readonly Outcome[];
    readonly left?: readonly Outcome[];
  };
  /** In the order in which they are told. */
  readonly standings: readonly S[];
  readonly names: Parameters<typeof standingInWords>[1];
  readonly ids: { readonly heading: string; readonly standing: string };
  /** How many rows each of the two has, in words. */
  readonly sizes: string;
  /** Before the heading, where a section has several: "Loads". */
  readonly of?: string;
  /** What is said above the rows that do not agree. */
  readonly before?: ReactNode;
  readonly item: (outcome: Outcome, ending: Ending) => ReactNode;
  readonly figures: Figures;
  readonly timeZone: string;
  readonly children?: ReactNode;
}

/** As many as a person looks through at once; the others come once these are settled. */
const MOST_SHOWN = 200;

export function Compared<S extends Standing, Outcome extends NamedOutcome & Ended<{ readonly id: string }>>({
  matching: { fileName, broughtAt, counts, open, accepted = [], left = [] },
  standings,
  names,
  ids,
  sizes,
  of: part,
  before,
  item,
  figures,
  timeZone,
  children,
}: ComparedProps<S, Outcome>) {
  const told = standings.filter((standing) => standing === 'agrees' || counts[standing] > 0);
  const settled = (
    [
      ['accepted', accepted],
      ['left', left],
    ] as const
  ).filter(([, outcomes]) => outcomes.length > 0);
  return (
    <section aria-labelledby={ids.heading}>
      <h3 id={ids.heading}>{headingOf({ open: open.length, settled: settled.length, part })}</h3>
      <p className="quiet-word">
        {fileName}, brought on {localDay(broughtAt, timeZone)}: {sizes}
      </p>
      <dl className="facts sums">
        {told.map((standing) => (
          <div key={standing}>
            <dt>{standingInWords(standing, names)}</dt>
            <dd className="amount">{figures.show(String(counts[standing]))}</dd>
          </div>
        ))}
        {settled.map(([ending, outcomes]) => (
          <div key={ending}>
            <dt>{SETTLED[ending]}</dt>
            <dd className="amount">{figures.show(String(outcomes.length))}</dd>
          </div>
        ))}
      </dl>
      {open.length === 0 ? null : before}
      {standings
        .filter((standing) => standing !== 'agrees')
        .map((standing) => {
          const of = open.filter((outcome) => standingsOf(outcome)[0] === standing);
          if (of.length === 0) return null;
          return (
            <Group
              key={standing}
              id={`${ids.standing}-${standing}`}
              title={standingInWords(standing, names)}
              outcomes={of}
              item={(outcome) => item(outcome, 'open')}
              figures={figures}
            />
          );
        })}
      {settled.map(([ending, outcomes]) => (
        <Group
          key={ending}
          id={`${ids.standing}-${ending}`}
          title={SETTLED[ending]}
          outcomes={outcomes}
          item={(outcome) => item(outcome, ending)}
          figures={figures}
        />
      ))}
      {children}
    </section>
  );
}

/** Whether a row is still to be settled, and if not, how it was. */
export type Ending = 'open' | 'accepted' | 'left';

const SETTLED: Readonly<Record<Exclude<Ending, 'open'>, string>> = {
  accepted: 'You accept the record',
  left: 'Both leave it standing',
};

interface GroupProps<Outcome> {
  readonly id: string;
  readonly title: string;
  readonly outcomes: readonly Outcome[];
  readonly item: (outcome: Outcome) => ReactNode;
  readonly figures: Figures;
}

function Group<Outcome extends Ended<{ readonly id: string }>>({
  id,
  title,
  outcomes,
  item,
  figures,
}: GroupProps<Outcome>) {
  return (
    <section aria-labelledby={id}>
      <h4 id={id}>{title}</h4>
      <ul className="corrections">
        {outcomes.slice(0, MOST_SHOWN).map((outcome) => (
          <li key={keyOf(outcome)} className="correction">
            {item(outcome)}
          </li>
        ))}
      </ul>
      {outcomes.length > MOST_SHOWN ? (
        <p>{figures.show(String(outcomes.length - MOST_SHOWN))} more are not shown.</p>
      ) : null}
    </section>
  );
}

function headingOf({
  open,
  settled,
  part,
}: {
  readonly open: number;
  readonly settled: number;
  readonly part: string | undefined;
}): string {
  const words =
    open > 0 ? 'How they compare' : settled > 0 ? 'Everything agrees, or is settled' : 'Everything agrees';
  return part === undefined ? words : `${part}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`;
}

/** The day of a moment in a time zone: "2026-11-28". */
export function localDay(at: string, timeZone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date(at));
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
