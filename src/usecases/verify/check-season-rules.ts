/**
 * Notes by the agreed rules for a season, worked out anew from what they rest on and held against what was issued.
 */
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { StandingRows } from '../../store/rows/audit-rows.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { type RuleNoteRow, readRuleNotes } from '../../store/rows/season-rule-rows.ts';
import { withVersions } from '../agreements/find-agreement.ts';
import { type SeasonRuleStanding, seasonRules } from '../season-close/season-rules.ts';

type RowFault = { readonly row: string; readonly message: string };

/** Every fault. Figures that somebody changed may be no figures at all. */
export async function checkSeasonRules(tx: Transaction, rows: StandingRows): Promise<readonly RowFault[]> {
  const notes = await readRuleNotes(tx, rows.agreement.id);
  const signed = await signedRules(tx, rows.agreement.id);
  if (notes.length === 0 && signed.size === 0) return [];
  try {
    return await ruleFaults(tx, rows, { notes, signed });
  } catch (error) {
    const told = error instanceof Error ? error.message : String(error);
    return [{ row: 'season rules', message: `cannot be worked out again: ${told}` }];
  }
}

/** Rules of a sealed season of which nothing was carried over: whatever they come to is on notes. */
async function signedRules(tx: Transaction, agreementId: string): Promise<ReadonlySet<string>> {
  if (!(await readSeal(tx, agreementId))) return new Set();
  const close = await readSeasonClose(tx, agreementId);
  let statement: Pick<ClosingStatement, 'adjustments'>;
  try {
    statement = JSON.parse(close?.statement ?? '{}');
  } catch {
    // That it is no statement is a fault of the seal.
    return new Set();
  }
  const settled = (statement.adjustments ?? []).filter(({ amount, issued }) => amount === issued);
  return new Set(settled.map(({ rule }) => rule));
}

interface RuleGround {
  readonly notes: readonly RuleNoteRow[];
  readonly signed: ReadonlySet<string>;
}

async function ruleFaults(
  tx: Transaction,
  rows: StandingRows,
  { notes, signed }: RuleGround,
): Promise<readonly RowFault[]> {
  const found = await withVersions(tx, rows.agreement);
  const money = moneyOf(found.agreement);
  const print = (amount: bigint) => printAmount(amount, money);
  const conditions = conditionsOf(found.agreement) ?? {};
  const standings = await seasonRules(tx, { found, conditions, money, print, rows: rows.money });
  return standings.flatMap((standing): RowFault[] => {
    const note = notes.find(({ rule }) => rule === standing.rule);
    // What was recorded after the last note goes on the next one, until a season is signed shut without it.
    if ((!note || note.isOvertaken) && !signed.has(standing.rule)) return [];
    const message = faultOf(standing, { hasNote: note !== undefined, print });
    if (message === undefined) return [];
    return [{ row: note ? `money_document ${note.documentId}` : `season rule ${standing.rule}`, message }];
  });
}

function faultOf(
  { rule, waits, owed, issued }: SeasonRuleStanding,
  { hasNote, print }: { readonly hasNote: boolean; readonly print: (amount: bigint) => string },
): string | undefined {
  if (waits !== undefined) return `cannot be worked out again: ${waits}`;
  if (owed === issued) return undefined;
  const is = hasNote
    ? `is the last note by the rule ${rule}, whose notes come to ${print(issued)};`
    : `is signed as issued; its notes come to ${print(issued)}, and`;
  return `${is} by what is recorded it comes to ${print(owed)}`;
}
