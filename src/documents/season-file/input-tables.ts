/**
 * A sealed season as the files that it can be settled and imported from again: the same tables that a season's folder
 * holds, with every figure as it was put right last.
 */
import { TESTED } from '../../domain/agreement/measures.ts';
import { decimal, MAX_DECIMAL_LENGTH } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { convertDistance } from '../../domain/quantities/units.ts';
import type { SeasonFile } from '../../domain/season-close/season-file.ts';
import { CHOICES, columnOf, ELECTIONS, LOADS, PRICES } from '../../domain/tables/table-shape.ts';
import type { LoadFact, QuoteFact, ResultFact } from '../../journal/facts.ts';
import { type SafeCell, safeCsvTable } from '../csv.ts';
import type { SeasonJournal } from './season-journal.ts';

/** A load as it was last, by the id of its first row. */
export interface LastLoad {
  readonly id: string;
  readonly fact: LoadFact;
  readonly isVoid: boolean;
}

/** In the order in which they were recorded first. */
export function lastLoads({ of }: SeasonJournal): ReadonlyMap<string, LastLoad> {
  const loads = new Map<string, LastLoad>();
  for (const { subject, fact } of of('load')) loads.set(subject, { id: subject, fact, isVoid: false });
  for (const { fact } of of('load-version')) loads.set(fact.load, { id: fact.load, fact, isVoid: fact.void });
  return loads;
}

/** Name and text of each file. */
export function inputTables(
  file: SeasonFile,
  journal: SeasonJournal,
): readonly (readonly [name: string, text: string])[] {
  const loads = lastLoads(journal);
  const ticketOf = (id: string) => loads.get(id)?.fact.ticket ?? id;
  const standing = [...loads.values()].filter(({ isVoid }) => !isVoid);
  const isStanding = new Set(standing.map(({ id }) => id));
  const last = file.agreements.at(-1) ?? '';
  return [
    ['agreement.json', last],
    [LOADS.file, loadsTable(standing)],
    ['samples.csv', samplesTable(lastBy(journal.of('result'), ({ sample }) => sample))],
    [
      PRICES.file,
      safeCsvTable(
        PRICES.required,
        lastBy(journal.of('quote'), (quote) => `${quote.series}\n${quote.date}`).map((quote: QuoteFact) => [
          quote.series,
          quote.date,
          { figure: quote.price },
        ]),
      ),
    ],
    [
      ELECTIONS.file,
      safeCsvTable(
        ELECTIONS.required,
        lastBy(journal.of('election'), ({ load }) => load)
          .filter(({ load }) => isStanding.has(load))
          .map(({ load, series, date }) => [ticketOf(load), series, date]),
      ),
    ],
    [
      CHOICES.file,
      safeCsvTable(
        CHOICES.required,
        lastBy(journal.of('choice'), ({ load }) => load)
          .filter(({ load }) => isStanding.has(load))
          .map(({ load, choice }) => [ticketOf(load), choice]),
      ),
    ],
  ];
}

/** What was said last of each key, in the order of the first. */
function lastBy<F>(entries: readonly { readonly fact: F }[], key: (fact: F) => string): readonly F[] {
  const last = new Map<string, F>();
  for (const { fact } of entries) last.set(key(fact), fact);
  return [...last.values()];
}

function loadsTable(loads: readonly LastLoad[]): string {
  const isInKm = loads.some(({ fact }) => fact.distanceUnit === 'km');
  const isFar = loads.some(({ fact }) => fact.distance !== null);
  const columns = [...LOADS.required, 'sample', 'truck', ...(isFar ? [isInKm ? 'km' : 'miles'] : [])];
  return safeCsvTable(
    columns,
    loads.map(({ fact }) => [
      fact.ticket,
      fact.deliveredAt,
      { figure: fact.gross },
      { figure: fact.tare },
      fact.unit,
      fact.sample ?? '',
      fact.truck ?? '',
      ...(isFar ? [figureOrNothing(distanceOf(fact, isInKm))] : []),
    ]),
  );
}

/** The table has one column for it: where one load's is in km, all are. */
function distanceOf({ distance, distanceUnit }: LoadFact, inKm: boolean): string | undefined {
  if (distance === null) return undefined;
  if (!inKm || distanceUnit === 'km') return distance;
  return printDecimal(convertDistance(decimal(distance), 'mile', 'km'), MAX_DECIMAL_LENGTH);
}

function samplesTable(results: readonly ResultFact[]): string {
  const measures = TESTED.filter(
    (measure) => measure === 'dry-matter' || results.some(({ figures }) => figures[measure] !== undefined),
  );
  return safeCsvTable(
    ['sample', 'basis', ...measures.map(columnOf)],
    results.map(({ sample, basis, figures }) => [
      sample,
      basis,
      ...measures.map((measure) => figureOrNothing(figures[measure])),
    ]),
  );
}

function figureOrNothing(figure: string | undefined): SafeCell {
  return figure === undefined ? '' : { figure };
}
