/**
 * `huskledger settle DIR`: what each load of a season is worth, and why.
 */
import { parseArgs } from 'node:util';
import { figuresFor } from '../../documents/figures.ts';
import { csvHead, csvLoad } from '../../documents/settlements-csv.ts';
import { printLoad, settlementsHead, settlementsTail } from '../../documents/settlements-json.ts';
import { parseLocalDate } from '../../domain/dates/local-date.ts';
import type { Outcome } from '../../domain/settlement/outcome.ts';
import { printProblem } from '../../files/input-problem.ts';
import { type SettledSeason, settleFolder } from '../../usecases/settle-folder.ts';
import { counted } from '../counted.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import { explain } from '../explanation.ts';
import { type Progress, startProgress } from '../progress.ts';
import { settledTable } from '../settled-table.ts';
import type { Terminal } from '../terminal.ts';

export const SETTLE_HELP = `huskledger settle DIR [--json | --csv | --explain TICKET] [--pdf OUT [--by load|day|season] [--paper letter|a4] [--issued DATE]]

  Settles the season in the folder DIR: agreement.json and loads.csv, with samples.csv, prices.csv, elections.csv and
  choices.csv where there are any. Without options it prints a table.

  --json            print the settlement for other programs
  --csv             print a row a load, for a spreadsheet
  --explain TICKET  print how one load came to its amount, in figures that a pocket calculator repeats
  --pdf OUT         write invoices: to one file where OUT ends in .pdf, else a file for each into the folder OUT
  --by KIND         an invoice for each load (the default), day, or the season
  --paper SIZE      letter or a4 (without it: a4 for a metric agreement, else letter)
  --issued DATE     the date that the invoices carry, like 2026-11-30 (without it they carry none)

  Exit status: 0 when every load settled or was refused, 2 when some wait, 1 on any input error (nothing is written).`;

/** How a settlement is printed: a head, a row a load, a foot. */
interface Printer {
  readonly head: () => string;
  readonly row: (outcome: Outcome, index: number) => string;
  readonly foot: (total: bigint) => string;
}

export async function settleCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const { folder, options } = readArguments(args);
  const progress = startProgress(terminal, () => performance.now());
  try {
    const { settled, problems, warnings } = await settleFolder(folder, (count) =>
      progress.report({ doing: 'Reading', done: count, unit: 'loads' }),
    );
    if (!settled) {
      progress.end();
      for (const problem of problems) terminal.say(printProblem(problem));
      terminal.say(`${counted(problems.length, 'problem')}; nothing was settled.`);
      return EXIT.wrong;
    }
    const work = { settled, terminal, progress };
    // Found before anything is written: a ticket that is not there is a wrong use, and writes nothing.
    const explained = options.explain === undefined ? undefined : await findOutcome(options.explain, settled);
    if (options.pdf !== undefined) await invoice(options.pdf, options, work);
    progress.end();
    for (const warning of warnings) terminal.say(`Please check: ${printProblem(warning)}`);
    if (explained) return await printExplanation(explained, work);
    return await print(printerFor(settled, options, terminal), work);
  } finally {
    progress.end();
  }
}

interface Work {
  readonly settled: SettledSeason;
  readonly terminal: Terminal;
  readonly progress: Progress;
}

async function invoice(out: string, { by, paper, issued }: SettleOptions, work: Work): Promise<void> {
  // The PDF library is loaded only when it is needed: it would double the time that a command takes to start.
  const { writeInvoices } = await import('../write-invoices.ts');
  const { settled, terminal, progress } = work;
  const onPages = (pages: number) => progress.report({ doing: 'Printing', done: pages, unit: 'pages' });
  const written = await writeInvoices({ settled, onPages, out, by, paper, issuedOn: issued });
  progress.end();
  if (written.invoices === 0) {
    terminal.say(`No load has settled yet, so no invoice was written to ${out}.`);
    return;
  }
  terminal.say(
    `Wrote ${counted(written.invoices, 'invoice')} on ${counted(written.pages, 'page')} to ${out}`,
  );
  if (written.others > 0) {
    terminal.say(
      `Please check: ${out} holds ${counted(written.others, 'other PDF file')} that this run did not write; an earlier invoice may stand beside its successor.`,
    );
  }
}

async function print(printer: Printer, { settled, terminal, progress }: Work): Promise<ExitStatus> {
  let total = 0n;
  let index = 0;
  let waiting = false;
  await terminal.write(printer.head());
  for await (const batch of settled.outcomes()) {
    for (const outcome of batch) {
      if (outcome.status === 'settled') total += outcome.total;
      else if (outcome.status === 'waiting') waiting = true;
      if (terminal.add(printer.row(outcome, index++))) await terminal.flush();
    }
    progress.report({ doing: 'Settling', done: index, of: settled.season.loadCount, unit: 'loads' });
  }
  progress.end();
  await terminal.write(printer.foot(total));
  await terminal.flush();
  return waiting ? EXIT.waiting : EXIT.done;
}

function printerFor(settled: SettledSeason, options: SettleOptions, terminal: Terminal): Printer {
  const { money, season } = settled;
  if (options.json) {
    return {
      head: () => settlementsHead(season.agreement.id, money),
      row: (outcome, index) => `${index === 0 ? '' : ','}\n    ${printLoad(outcome, money)}`,
      foot: (total) => settlementsTail(total, money),
    };
  }
  if (options.csv) {
    return {
      head: () => csvHead(season.agreement),
      row: (outcome) => csvLoad(outcome, money, season.agreement),
      foot: () => '',
    };
  }
  const table = settledTable(settled, figuresFor(terminal.locale()));
  return {
    head: () => `${table.head}\n`,
    row: (outcome) => `${table.row(outcome)}\n`,
    foot: () => `${table.foot()}\n`,
  };
}

async function findOutcome(ticket: string, settled: SettledSeason): Promise<Outcome> {
  for await (const batch of settled.outcomes()) {
    for (const outcome of batch) if (outcome.load.ticket === ticket) return outcome;
  }
  throw new WrongUse(
    `loads.csv has no ticket ${JSON.stringify(ticket)}. Tickets are compared letter by letter.`,
  );
}

async function printExplanation(outcome: Outcome, { settled, terminal }: Work): Promise<ExitStatus> {
  await terminal.write(`${explain(outcome, settled)}\n`);
  await terminal.flush();
  return outcome.status === 'waiting' ? EXIT.waiting : EXIT.done;
}

const INVOICE_KINDS = ['load', 'day', 'season'] as const;
const PAPERS = ['letter', 'a4'] as const;

interface SettleOptions {
  readonly json: boolean;
  readonly csv: boolean;
  readonly explain: string | undefined;
  readonly pdf: string | undefined;
  readonly by: (typeof INVOICE_KINDS)[number];
  readonly paper: (typeof PAPERS)[number] | undefined;
  readonly issued: string | undefined;
}

function readArguments(args: readonly string[]): { folder: string; options: SettleOptions } {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      json: { type: 'boolean', default: false },
      csv: { type: 'boolean', default: false },
      explain: { type: 'string' },
      pdf: { type: 'string' },
      by: { type: 'string' },
      paper: { type: 'string' },
      issued: { type: 'string' },
    },
  });
  const [folder] = positionals;
  if (folder === undefined || positionals.length > 1)
    throw new WrongUse('Name one folder: huskledger settle DIR');
  const { json, csv, explain, pdf, issued } = values;
  if ([json, csv, explain !== undefined].filter(Boolean).length > 1) {
    throw new WrongUse('Choose one of --json, --csv and --explain.');
  }
  if (pdf === undefined && [values.by, values.paper, issued].some((value) => value !== undefined)) {
    throw new WrongUse('--by, --paper and --issued go with --pdf OUT.');
  }
  if (pdf !== undefined && /^(\s*|-.*)$/.test(pdf))
    throw new WrongUse('--pdf needs the name of a file or folder to write.');
  if (issued !== undefined && parseLocalDate(issued) === undefined) {
    throw new WrongUse(`--issued takes a date like 2026-11-30; found ${JSON.stringify(issued)}.`);
  }
  const by = oneOf(INVOICE_KINDS, values.by ?? 'load', '--by');
  const paper = values.paper === undefined ? undefined : oneOf(PAPERS, values.paper, '--paper');
  return { folder, options: { json, csv, explain, pdf, by, paper, issued } };
}

function oneOf<Word extends string>(words: readonly Word[], given: string, option: string): Word {
  const word = words.find((known) => known === given);
  if (word === undefined)
    throw new WrongUse(`${option} takes ${words.join(', ')}; found ${JSON.stringify(given)}.`);
  return word;
}
