/**
 * The notes that were issued by the agreed rules for a season, for whoever checks them.
 */
import type { Transaction } from '../open-store.ts';

/** The newest note of one rule. */
export interface RuleNoteRow {
  readonly rule: string;
  readonly documentId: string;
  /** Something that it rests on was recorded after it. */
  readonly isOvertaken: boolean;
}

/** What rules are worked out from, as the journal calls it. */
const GROUNDS = [
  'agreement',
  'load',
  'load-version',
  'result',
  'result-answer',
  'quote',
  'election',
  'choice',
  'correction-answer',
  'settlement',
];

/** One row for each rule that has notes. Notes without an entry in the journal are named elsewhere. */
export async function readRuleNotes(tx: Transaction, agreementId: string): Promise<readonly RuleNoteRow[]> {
  return await tx.$queryRawUnsafe<RuleNoteRow[]>(
    `SELECT DISTINCT ON (d.season_rule) d.season_rule AS rule, d.id AS "documentId",
       e.sequence < (SELECT coalesce(max(g.sequence), 0) FROM journal_entry g
         WHERE g.agreement_id = $1::uuid AND g.kind = ANY($2::text[])) AS "isOvertaken"
     FROM money_document d
     JOIN journal_entry e ON e.agreement_id = d.agreement_id AND e.subject_id = d.id
     WHERE d.agreement_id = $1::uuid AND d.season_rule IN ('shortfall', 'surplus', 'true-up')
     ORDER BY d.season_rule, e.sequence DESC`,
    agreementId,
    GROUNDS,
  );
}
