/**
 * The product's settlement of an oracle season, in memory: the same checks and row readers as the files go through,
 * without a disk. Throws where the product sees an input error.
 */
import { printLoad } from '../../src/documents/settlements-json.ts';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import type { Agreement } from '../../src/domain/agreement/document.ts';
import { zoneCalendar } from '../../src/domain/dates/instant.ts';
import type { LocalDate } from '../../src/domain/dates/local-date.ts';
import type { DeliveredLoad } from '../../src/domain/deliveries/delivered-load.ts';
import { type Quote, sortQuotes } from '../../src/domain/prices/price-series.ts';
import type { LabResult } from '../../src/domain/samples/lab-result.ts';
import type { Choice } from '../../src/domain/settlement/acceptance.ts';
import { prepareRemainderCheck } from '../../src/domain/settlement/check-remainders.ts';
import type { Money } from '../../src/domain/settlement/line.ts';
import type { Outcome } from '../../src/domain/settlement/outcome.ts';
import { needsDistance } from '../../src/domain/settlement/prepare-term.ts';
import { type Evidence, moneyOf, prepareSettlement } from '../../src/domain/settlement/settle-load.ts';
import { readLoadRow } from '../../src/domain/tables/load-row.ts';
import { readChoiceRow, readElectionRow, readQuoteRow } from '../../src/domain/tables/other-rows.ts';
import { Row } from '../../src/domain/tables/row.ts';
import { readSampleRow, reportedMeasures } from '../../src/domain/tables/sample-row.ts';
import type { OracleSeason } from './season.ts';

type Cells = Readonly<Record<string, string | undefined>>;

export interface ProductSettlement {
  readonly agreement: Agreement;
  readonly money: Money;
  readonly settle: (load: Cells) => Outcome;
  /** As `--json` has it. */
  readonly print: (outcome: Outcome) => Record<string, unknown>;
}

export function prepareProduct(season: OracleSeason): ProductSettlement {
  const { agreement, problems } = checkAgreement(season.agreement);
  if (!agreement) throw new Error(JSON.stringify(problems, undefined, 1));
  const money = moneyOf(agreement);
  const settle = prepareSettlement(agreement, evidenceOf(season, agreement));
  const distanceNeeded = agreement.price.some(needsDistance);
  const rules = { calendar: zoneCalendar(agreement.timeZone), distanceNeeded: () => distanceNeeded };
  return {
    agreement,
    money,
    settle: (cells) => settle(read(cells, (row): DeliveredLoad | undefined => readLoadRow(row, rules))),
    print: (outcome) => JSON.parse(printLoad(outcome, money)) as Record<string, unknown>,
  };
}

function read<Record>(cells: Cells, reader: (row: Row) => Record | undefined): Record {
  const row = new Row((column) => cells[column] ?? '');
  const record = reader(row);
  if (record === undefined) throw new Error(`${JSON.stringify(cells)}: ${JSON.stringify(row.problems)}`);
  return record;
}

function evidenceOf(season: OracleSeason, agreement: Agreement): Evidence {
  const negative = prepareRemainderCheck({ ...agreement, timeZone: agreement.timeZone });
  const results = new Map<string, LabResult>();
  for (const cells of season.samples as readonly Cells[]) {
    const reported = reportedMeasures(Object.keys(cells));
    const result = read(cells, (row) => readSampleRow(row, reported));
    const faults = negative(result);
    if (faults.length > 0) throw new Error(faults.join());
    results.set(result.sample, result);
  }
  const quotes = new Map<string, Quote[]>();
  for (const cells of season.prices as readonly Cells[]) {
    const { series, ...quote } = read(cells, readQuoteRow);
    quotes.set(series, [...(quotes.get(series) ?? []), quote]);
  }
  const elections = new Map<string, Map<string, LocalDate>>();
  for (const cells of season.elections as readonly Cells[]) {
    const { ticket, series, date } = read(cells, (row) => readElectionRow(row, () => []));
    elections.set(ticket, (elections.get(ticket) ?? new Map<string, LocalDate>()).set(series, date));
  }
  const choices = new Map<string, Choice>();
  for (const cells of season.choices as readonly Cells[]) {
    const { ticket, choice } = read(cells, readChoiceRow);
    choices.set(ticket, choice);
  }
  const prices = new Map([...quotes].map(([series, list]) => [series, sortQuotes(list)]));
  return { results, prices, elections, choices };
}
