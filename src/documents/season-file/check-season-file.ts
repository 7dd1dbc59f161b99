/**
 * Checks a sealed season's file by itself: that the journal is whole, that the seal stands over it, and that both parties
 * signed the statement that names that seal.
 */
import { type ClosingStatement, closingStatementShape } from '../../domain/season-close/closing-statement.ts';
import { type SeasonFile, seasonFileShape, seasonFileText } from '../../domain/season-close/season-file.ts';
import { CHAIN_START, entryFingerprint } from '../../journal/chain.ts';
import { sha256 } from '../../journal/fingerprint.ts';
import { merkleRoot } from '../../journal/merkle.ts';
import { sealMark } from '../../journal/seal-mark.ts';

export interface CheckedSeason {
  /** Empty where everything fits. */
  readonly faults: readonly string[];
  /** What the file says of itself; undefined where it is no season's file. */
  readonly season:
    | {
        readonly statement: ClosingStatement;
        readonly root: string;
        readonly mark: string;
        readonly signatures: SeasonFile['signatures'];
      }
    | undefined;
}

/** `text` is the file's. */
export function checkSeasonFile(text: string): CheckedSeason {
  const json = parsed(text);
  const read = seasonFileShape.safeParse(json);
  if (!read.success) {
    const [issue] = read.error.issues;
    const where = issue && issue.path.length > 0 ? ` at ${issue.path.join('.')}` : '';
    return {
      faults: [json === undefined ? 'It is no JSON.' : `It is not the file of a sealed season${where}.`],
      season: undefined,
    };
  }
  const file = read.data;
  const said = closingStatementShape.safeParse(parsed(file.statement));
  if (!said.success) return { faults: ['It holds no closing statement.'], season: undefined };
  const statement = said.data;
  return {
    faults: [
      ...(text === seasonFileText(file) ? [] : ['The file is not written as it was exported.']),
      ...faultsOfChain(file, statement),
      ...faultsOfSeal(file, statement),
      ...faultsOfSignatures(file, statement),
      ...faultsOfAgreements(file, statement),
    ],
    season: { statement, root: file.seal.root, mark: file.seal.mark, signatures: file.signatures },
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Names the first entry that does not stand in its place. */
function faultsOfChain({ entries }: SeasonFile, { journal, agreement }: ClosingStatement): string[] {
  let head = CHAIN_START.fingerprint;
  for (const [index, document] of entries.entries()) {
    const entry = parsed(document) as { sequence?: unknown; agreement?: unknown } | undefined;
    if (entry?.sequence !== String(index + 1) || entry.agreement !== agreement.id) {
      return [`Entry ${index + 1} is not the entry of that place.`];
    }
    head = entryFingerprint(head, document);
  }
  return head === journal.head ? [] : ['The journal’s last fingerprint is not the one that was signed.'];
}

function faultsOfSeal(
  { entries, seal, signatures, statement: text }: SeasonFile,
  { journal }: ClosingStatement,
): string[] {
  const faults: string[] = [];
  if (merkleRoot(entries.map((entry) => Buffer.from(entry, 'utf8'))) !== seal.root) {
    faults.push('The root over the journal is not the seal’s.');
  }
  if (sealMark({ ...seal, statement: sha256(text), signatures }) !== seal.mark) {
    faults.push('Who signed when, or over what, is not what the seal’s mark says.');
  }
  if (journal.root !== seal.root) faults.push('The statement that was signed names another root.');
  if (seal.entries !== String(entries.length) || journal.entries !== seal.entries) {
    faults.push(`The journal has ${entries.length} entries; ${journal.entries} were signed.`);
  }
  return faults;
}

function faultsOfSignatures(
  { signatures, statement: text }: SeasonFile,
  { seller, buyer }: ClosingStatement,
): string[] {
  const signed = sha256(text);
  const faults = [seller, buyer].flatMap((party) =>
    signatures.some((signature) => signature.party === party)
      ? []
      : [`The signature of ${party} is missing.`],
  );
  for (const { party, name, fingerprint } of signatures) {
    if (fingerprint !== signed) faults.push(`${name} signed another statement for ${party}.`);
  }
  return faults;
}

function faultsOfAgreements({ agreements }: SeasonFile, { agreement }: ClosingStatement): string[] {
  const found = agreements.map(sha256);
  const isSame =
    found.length === agreement.versions.length &&
    found.every((fingerprint, index) => fingerprint === agreement.versions[index]);
  return isSame ? [] : ['The agreement is not the one whose fingerprint was signed.'];
}
