/**
 * What a sealed season's archive says of itself, for somebody who has nothing else.
 */
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import type { SeasonFile } from '../../domain/season-close/season-file.ts';

export interface ToTellOf {
  readonly statement: ClosingStatement;
  /** There are tables of notes about seasons. */
  readonly hasNotes: boolean;
}

export function aboutArchive({ seal, signatures }: SeasonFile, { statement, hasNotes }: ToTellOf): string {
  const { agreement, seller, buyer, currency, journal } = statement;
  const notes = hasNotes
    ? `
                         season-notes: differences that were left standing, and money for an earlier season that is
                         sealed; season-documents: the notes about a season as a whole`
    : '';
  const signed = signatures.map(({ name, party, signedAt }) => `  ${name} for ${party}, ${signedAt}`);
  return `The sealed season of agreement ${agreement.number}
${seller} sold, ${buyer} bought. Amounts are in ${currency}; above zero the buyer owes.

Signed by
${signed.join('\n')}
Sealed ${seal.sealedAt}, over ${journal.entries} entries of the journal
Root ${seal.root}
Mark ${seal.mark}

Compare root and mark with those on the closing statement that you kept. To check them anew, with this zip file
as it is:

  huskledger check-seal FILE

What is here
  season.json            what the seal stands over: the statement that both signed, the signatures, each version
                         of the agreement, and the journal, entry by entry
  agreement/             each version of the agreement, as it was signed; SHA-256 of the text is its fingerprint
  season/                the loads, results, prices and decisions as they stood at the close, with the last version
                         of the agreement: "huskledger settle season" works them out again, and "huskledger import
                         season" takes them into another record. Loads under an earlier version of the agreement
                         settle by that one.
  accounts/              settlements with their lines, documents, payments, questions, and what each entry posted${notes}
  checksums.txt          SHA-256 of each file: "sha256sum -c checksums.txt"

How the seal is worked out
  Fingerprint of an entry: SHA-256 of the fingerprint before it (64 zeros before the first), a line feed, and the
  entry's text. The last one stands in the statement.
  Root: the Merkle tree hash of RFC 6962, section 2.1, with the entries' texts as its leaves.
  Mark: SHA-256 over the statement's fingerprint, the root, the number of entries, the time and the signatures, as
  one JSON text in the order of RFC 8785.

Days in columns that end in "_on" are local days of the agreement; times are UTC. In CSV files a text that a
spreadsheet could take for a formula has an apostrophe before it.
`;
}
