/**
 * The last step of an import: the rows that are new are recorded, all of them or none.
 */
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { importKey, recordRows, takenBefore } from './import-key.ts';
import { type JudgedRow, judgeRows } from './judge-rows.ts';
import { type FileToImport, IMPORT_VERBS, openImport, readMatch } from './open-import.ts';
import { countRows } from './preview-import.ts';

export interface ImportToTake extends FileToImport {
  /** Unusual figures were looked at, and are right. */
  readonly confirmed?: boolean;
  /** Rows that differ from the record are left out, and the record stays as it is. */
  readonly leaveDiffering?: boolean;
}

export interface TakenImport {
  /** Rows that are recorded now. */
  readonly added: number;
  /** Rows that were there already, the same. */
  readonly there: number;
  /** Rows that differ from the record and were left out. */
  readonly leftOut: number;
  /** This very file was taken before, and nothing was added now. */
  readonly isRepeat: boolean;
}

/** What refuses a file as a whole, where rows differ from the record. */
const DIFFERS = { tickets: 'ticket-taken', results: 'result-taken', quotes: 'quote-taken' } as const;

/**
 * Takes a file as it was previewed. The same file by the same match is taken once: again, it adds nothing. Refuses
 * `not-allowed`, `not-found`, `not-yours`, `bad-input` with every wrong row (its place in the file, the file's own
 * column), `ticket-taken`, `result-taken` or `quote-taken` where rows differ from the record and are not to be left out,
 * and `unusual` and the like as recording one row does. What is refused writes nothing.
 */
export async function takeImport(context: Context, file: ImportToTake): Promise<TakenImport> {
  const { kind } = readMatch(file.match);
  permit(context, IMPORT_VERBS[kind]);
  const { rows, key, isTaken } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, file.agreementId);
    const opened = openImport(found, file);
    const ownKey = importKey(file);
    return {
      rows: await judgeRows(tx, context, { found, opened }),
      key: ownKey,
      isTaken: await takenBefore(tx, context, ownKey),
    };
  });
  const counts = countRows(rows);
  if (isTaken) return { added: 0, there: counts.there, leftOut: rows.length - counts.there, isRepeat: true };
  if (counts.wrong > 0) throw badInput(rows.flatMap(problemsOf));
  const [differing] = rows.filter(({ standing }) => standing === 'differs');
  if (differing && file.leaveDiffering !== true)
    throw new Refusal(DIFFERS[kind], tellDiffering(differing, counts.differs));
  const fresh = rows.filter(({ standing }) => standing === 'new').map(({ texts }) => texts);
  if (fresh.length > 0) {
    const { agreementId, confirmed = false } = file;
    await recordRows(context, { agreementId, kind, rows: fresh, key, confirmed });
    await context.store.refreshStatistics();
  }
  return { added: fresh.length, there: counts.there, leftOut: counts.differs, isRepeat: false };
}

function problemsOf({ line, problems }: JudgedRow, row: number): Problem[] {
  return problems.map(({ column, message }) => ({
    row,
    ...(column === undefined ? {} : { column }),
    message: `${message} (line ${line})`,
  }));
}

function tellDiffering({ line, differences: [first] }: JudgedRow, count: number): string {
  const others = count === 1 ? 'One row differs' : `${count} rows differ`;
  const example = first ? ` Line ${line} has ${first.given}, where ${first.recorded} is recorded.` : '';
  return `${others} from what is recorded.${example} Put them right in the record, or leave those rows out.`;
}
