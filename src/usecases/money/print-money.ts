/**
 * Documents and statements as files: PDF, CSV and e-invoice. What is printed of a document is what was issued, so that
 * printing it again gives the same bytes, for both sides.
 */
import { writeEInvoice } from '../../documents/e-invoice/write-e-invoice.ts';
import { renderMoneyDocument } from '../../documents/money-document/render-money-document.ts';
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { renderStatement } from '../../documents/statement/render-statement.ts';
import { statementCsv } from '../../documents/statement/statement-csv.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import type { Statement } from '../../domain/money/statement.ts';
import { findDocument } from '../../store/rows/money/document-rows.ts';
import { findAgreement, isId } from '../agreements/find-agreement.ts';
import type { PrintedPaper } from '../agreements/render-paper.ts';
import { type Context, permit } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { readStatements, type StatementWanted } from './read-statement.ts';

/** The words on the paper are English, and figures are written the English way. */
const LANGUAGE = 'en-US';

/** A text file with its name. */
export interface WrittenFile {
  readonly text: string;
  readonly name: string;
}

/** Refuses `not-allowed`, `not-found`, and `bad-input` where a character cannot be printed. */
export async function printDocument(
  context: Context,
  { documentId, fonts }: { readonly documentId: string; readonly fonts: FontBytes },
): Promise<PrintedPaper> {
  const { document, paper } = await issuedDocument(context, documentId);
  const printed = await renderMoneyDocument({ document, fonts, paper, language: LANGUAGE });
  if (!printed.ok) throw badInput(printed.problems.map(({ message }) => ({ message })));
  return { bytes: printed.bytes, name: fileName(document) };
}

/**
 * A document as UBL. `countries` are two letters each (ISO 3166-1), since no document of ours says them. Refuses
 * `not-allowed`, `not-found`, `bad-input`.
 */
export async function writeDocumentXml(
  context: Context,
  wanted: {
    readonly documentId: string;
    readonly countries: { readonly seller: string; readonly buyer: string };
  },
): Promise<WrittenFile> {
  const { document } = await issuedDocument(context, wanted.documentId);
  const faults = (['seller', 'buyer'] as const).filter((side) => !/^[A-Z]{2}$/.test(wanted.countries[side]));
  if (faults.length > 0) {
    throw badInput(
      faults.map((column) => ({ column, message: 'must be a country in two capital letters, like US' })),
    );
  }
  return {
    text: writeEInvoice({ document, countries: wanted.countries }),
    name: `${fileName(document)}.xml`,
  };
}

async function issuedDocument(context: Context, documentId: string) {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = isId(documentId) ? await findDocument(tx, documentId) : undefined;
    if (!found) throw new Refusal('not-found', 'There is no such document.');
    const document = JSON.parse(found.document) as MoneyDocument;
    const { versions } = await findAgreement(tx, found.agreementId);
    // The version that it was issued under: a later one must not change its paper.
    const issued = versions.find(({ row }) => String(row.version) === document.agreement.version);
    const isMetric = issued !== undefined && readerUnits(issued.agreement).weight === 'kg';
    return { document, paper: isMetric ? ('a4' as const) : ('letter' as const) };
  });
}

/** "Invoice-17-Quillback-Acres". */
function fileName(document: MoneyDocument): string {
  return `${documentName(document)} ${document.seller}`.replace(/[^\p{L}\p{N}]+/gu, '-');
}

/** A statement in one currency; without one, the only one there is. */
export interface StatementFileWanted extends StatementWanted {
  readonly currency?: string | undefined;
}

/** Refuses as `readStatements`, and `bad-input` where a character cannot be printed. */
export async function printStatement(
  context: Context,
  { fonts, ...wanted }: StatementFileWanted & { readonly fonts: FontBytes },
): Promise<PrintedPaper> {
  const statement = await oneStatement(context, wanted);
  const printed = await renderStatement({ statement, fonts, paper: 'letter', language: LANGUAGE });
  if (!printed.ok) throw badInput(printed.problems.map(({ message }) => ({ message })));
  return { bytes: printed.bytes, name: statementName(statement) };
}

/** Refuses as `readStatements`. */
export async function writeStatementCsv(context: Context, wanted: StatementFileWanted): Promise<WrittenFile> {
  const statement = await oneStatement(context, wanted);
  return { text: statementCsv(statement), name: `${statementName(statement)}.csv` };
}

async function oneStatement(context: Context, wanted: StatementFileWanted): Promise<Statement> {
  const statements = await readStatements(context, wanted);
  const statement =
    wanted.currency === undefined
      ? statements[0]
      : statements.find(({ currency }) => currency === wanted.currency);
  if (!statement) throw new Refusal('not-found', 'There is no statement in that currency.');
  return statement;
}

function statementName({ with: other, from, to }: Statement): string {
  return `Statement ${other} ${from} to ${to}`.replace(/[^\p{L}\p{N}]+/gu, '-');
}
