/**
 * The journal of a sealed season's file, read as facts.
 */
import type { SeasonFile } from '../../domain/season-close/season-file.ts';
import type { Posting } from '../../journal/accounts.ts';
import type { Fact, FactKind } from '../../journal/facts.ts';

/** An entry as it is kept, with the kind of its fact. */
export type JournalEntry = Fact & {
  readonly sequence: string;
  /** The id of the row that it is about. */
  readonly subject: string;
  /** ISO 8601, UTC. */
  readonly postedAt: string;
  readonly postings: readonly Posting[];
};

export type EntryOf<Kind extends FactKind> = Extract<JournalEntry, { readonly kind: Kind }>;

export interface SeasonJournal {
  readonly all: readonly JournalEntry[];
  /** Those of one kind, in their order. */
  readonly of: <Kind extends FactKind>(kind: Kind) => readonly EntryOf<Kind>[];
  /** The name of a party by its id; the id where it is neither of the two. */
  readonly partyName: (id: string) => string;
}

/** The file's entries must be known to be its journal (`checkSeasonFile`). Throws SyntaxError where one is no JSON. */
export function seasonJournal({ entries, statement }: SeasonFile): SeasonJournal {
  const all = entries.map((document) => JSON.parse(document) as JournalEntry);
  const of = <Kind extends FactKind>(kind: Kind) =>
    all.filter((entry): entry is EntryOf<Kind> => entry.kind === kind);
  const { seller, buyer } = JSON.parse(statement) as { seller: string; buyer: string };
  const names = new Map<string, string>();
  for (const { fact } of of('agreement')) names.set(fact.seller, seller).set(fact.buyer, buyer);
  return { all, of, partyName: (id) => names.get(id) ?? id };
}
